// Loaded first: the library would print its name on the console of every page.
(globalThis as { TONE_SILENCE_LOGGING?: boolean }).TONE_SILENCE_LOGGING = true;
export {};
