// Bundles the extension and packs it: one VSIX with the server for each platform asked for, and one without a server.
// usage: node build.mjs bundle                 only the script, into .artifacts/vsix/extension.js
//        node build.mjs pack [TARGET...]       VSIX files into .artifacts/vsix/; TARGET is a platform or "none" (default: this machine's, and none)
import { execFileSync } from 'node:child_process';
import { chmodSync, copyFileSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = dirname(fileURLToPath(import.meta.url));
const root = dirname(here);
const out = join(root, '.artifacts', 'vsix');
const platforms = {
  'linux-x64': 'linux-x64', 'linux-arm64': 'linux-arm64', 'alpine-x64': 'linux-musl-x64', 'win32-x64': 'win-x64', 'darwin-x64': 'osx-x64', 'darwin-arm64': 'osx-arm64',
};
const own = `${process.platform}-${process.arch}`;

const bundle = () => build({
  entryPoints: [join(here, 'source', 'extension.ts')], outfile: join(out, 'extension.js'), bundle: true, platform: 'node', target: 'node20', format: 'cjs',
  external: ['vscode'], minify: true, legalComments: 'linked', logLevel: 'warning',
});

// What a program printed is its reason; a trace of this script would hide it.
function run(command, args, cwd) {
  try {
    return execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
  } catch (error) {
    throw new Error(`${command} ${args[0] ?? ''} did not work:\n${String(error.stdout || error.message).trim()}`);
  }
}

// Ahead of time for the machine that builds, where it has a linker; a compiler cannot do that for another one, so there the runtime comes along, trimmed.
function publish(target) {
  const to = join(out, 'server', target);
  const how = settings => {
    rmSync(to, { recursive: true, force: true });
    run('dotnet', ['publish', 'server/ChordLang.Server', '-c', 'Release', '-r', platforms[target], '--self-contained', '-o', to, ...settings,
      '-p:DebugType=none', '-p:StripSymbols=true', '--nologo', '-v', 'q', '-clp:NoSummary'], root);
  };
  // What the linker warns of is the reflection of libraries on ways that are not taken: the same code is compiled ahead of time without a warning.
  const trimmed = ['-p:PublishSingleFile=true', '-p:PublishTrimmed=true', '-p:SuppressTrimAnalysisWarnings=true'];
  if (target !== own)
    how(trimmed);
  else
    try {
      how(['-p:PublishAot=true']);
    } catch (error) {
      console.log(error.message.split('\n').slice(-5).join('\n'));
      console.log('Compiling ahead of time did not work (it wants gcc or clang, and the headers of zlib): the server is packed with its runtime instead.');
      how(trimmed);
    }
  return join(to, target.startsWith('win32') ? 'chordlang.exe' : 'chordlang');
}

function stage(target) {
  const folder = join(out, 'stage', target);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const part of ['README.md', 'CHANGELOG.md', 'language-configuration.json', 'chordlang.schema.json', 'syntaxes', 'snippets', 'icons', 'samples', 'walkthrough'])
    cpSync(join(here, part), join(folder, part), { recursive: true });
  for (const file of ['extension.js', 'extension.js.LEGAL.txt'])
    if (existsSync(join(out, file)))
      copyFileSync(join(out, file), join(folder, file));
  const { private: _, scripts: __, devDependencies: ___, ...manifest } = JSON.parse(readFileSync(join(here, 'package.json'), 'utf8'));
  if (target !== 'none') {
    const server = publish(target);
    if (target === own)
      sameVersion(manifest.version);
    mkdirSync(join(folder, 'server'));
    const packed = join(folder, 'server', target.startsWith('win32') ? 'chordlang.exe' : 'chordlang');
    copyFileSync(server, packed);
    chmodSync(packed, 0o755);
  }
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest, null, 2));
  // All that was put into the folder is packed.
  writeFileSync(join(folder, '.vscodeignore'), '');
  return folder;
}

// An extension and a server of two versions would each say that it is right.
function sameVersion(version) {
  const said = run(join(out, 'server', own, 'chordlang'), ['--version']).trim();
  if (!said.endsWith(` ${version}`))
    throw new Error(`the server says ${said}, package.json says ${version}`);
}

async function pack(targets) {
  await bundle();
  for (const target of targets) {
    if (target !== 'none' && !(target in platforms))
      throw new Error(`${target} is no platform; there are ${Object.keys(platforms).join(', ')} and none`);
    const folder = stage(target);
    const file = join(out, target === 'none' ? 'chordlang-without-server.vsix' : `chordlang-${target}.vsix`);
    run(process.execPath, [join(here, 'node_modules', '@vscode', 'vsce', 'vsce'), 'package', '--no-dependencies', '--allow-missing-repository', '--skip-license',
      ...(target === 'none' ? [] : ['--target', target]), '--out', file], folder);
    console.log(`${file.slice(root.length + 1)} ${(statSync(file).size / 1e6).toFixed(2)} MB`);
  }
}

process.on('uncaughtException', error => {
  console.error(error.message);
  process.exit(1);
});

const [what, ...targets] = process.argv.slice(2);
if (what === 'bundle')
  await bundle();
else if (what === 'pack')
  await pack(targets.length > 0 ? targets : [own, 'none']);
else {
  console.error('usage: node build.mjs bundle | pack [TARGET...]');
  process.exitCode = 2;
}
