// Speaks with the language server directly, to hold what an editor shows against what the server says.
import { spawn } from 'node:child_process';

/** A session with the server: `request` answers the result, `end` says shutdown and exit. */
export function session(program) {
  const child = spawn(program, ['serve'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const waiting = new Map();
  let buffer = Buffer.alloc(0), last = 0;
  child.stdout.on('data', chunk => {
    buffer = Buffer.concat([buffer, chunk]);
    for (;;) {
      const head = buffer.indexOf('\r\n\r\n');
      if (head < 0)
        return;
      const length = Number(/Content-Length: (\d+)/i.exec(buffer.subarray(0, head).toString())[1]);
      if (buffer.length < head + 4 + length)
        return;
      const message = JSON.parse(buffer.subarray(head + 4, head + 4 + length).toString());
      buffer = buffer.subarray(head + 4 + length);
      if (message.method !== undefined && message.id !== undefined)
        send({ id: message.id, result: null });
      else if (message.id !== undefined) {
        const [done, fail] = waiting.get(message.id);
        waiting.delete(message.id);
        message.error ? fail(new Error(message.error.message)) : done(message.result);
      }
    }
  });
  const send = body => {
    const bytes = Buffer.from(JSON.stringify({ jsonrpc: '2.0', ...body }));
    child.stdin.write(`Content-Length: ${bytes.length}\r\n\r\n`);
    child.stdin.write(bytes);
  };
  const request = (method, params) => new Promise((done, fail) => {
    waiting.set(++last, [done, fail]);
    send({ id: last, method, params });
  });
  return {
    request, notify: (method, params) => send({ method, params }),
    end: async () => {
      await request('shutdown');
      send({ method: 'exit' });
      await new Promise(done => child.on('exit', done));
    },
  };
}

/** The hints that the server has for a lesson, as it would send them to an editor. */
export async function hintsOf(program, lesson) {
  const server = session(program);
  await server.request('initialize', { processId: process.pid, rootUri: null, capabilities: { textDocument: { inlayHint: { dynamicRegistration: false } } } });
  server.notify('initialized', {});
  const uri = 'untitled:lesson.chl';
  server.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'chordlang', version: 1, text: lesson } });
  const range = { start: { line: 0, character: 0 }, end: { line: lesson.split('\n').length, character: 0 } };
  const hints = await server.request('textDocument/inlayHint', { textDocument: { uri }, range });
  await server.end();
  return hints ?? [];
}
