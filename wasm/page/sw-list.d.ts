// What the build puts before offline.js.
declare const version: string;
declare const files: Readonly<Record<string, string>>;
