// Lets Node.js import the phone's TypeScript modules as they stand, without building them: a file without its
// ending is looked for, and types are taken out. Used by `node --import ./unit/typescript.mjs --test`.
import { register } from "node:module";

register("./typescript-hooks.mjs", import.meta.url);
