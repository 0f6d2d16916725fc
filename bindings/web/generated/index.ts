// @generated from the Rust API by bindings/generate. Do not edit.
// @ts-nocheck
export * from './farsiding_bindings';
import * as farsiding_bindings from './farsiding_bindings';


// The module is opened here rather than in an environment-specific entrypoint:
// `@ubjs/wasm` resolves to its browser or node build through the
// package's `exports` conditions, leaving this the one place that loads.
import { openWasm, type WasmSource } from '@ubjs/wasm';
import {
  PLAYER_DEFINITIONS as PLAYER_DEFINITIONS_farsiding_bindings,
  setNativeModule as setNativeModule_farsiding_bindings,
} from './farsiding_bindings-ffi';
// This crate reaches wasm-bindgen through its dependencies, so the module
// imports glue that only wasm-bindgen can write. Importing it here keeps it in
// the bundler's graph; the alternative is fetching it at runtime, which no
// bundler can see and which needs the file served beside the wasm.
import * as wasmBindgenGlue from './farsiding_bindings_bg.js';

/**
 * Open the module and register every namespace. Idempotent.
 *
 * `farsiding_bindings.wasm` is staged beside this file. There is no default,
 * because naming an asset is the one thing only the host knows: a bundler
 * rewrites the URL when it copies the file, so name it the way your
 * environment does.
 *
 *     import wasm from './farsiding_bindings.wasm';                   // bundler
 *     const wasm = new URL('./farsiding_bindings.wasm', import.meta.url); // node
 *     await uniffiInitAsync(wasm);
 */
let initPromise: Promise<void> | undefined;
export function uniffiInitAsync(source: WasmSource): Promise<void> {
  if (!initPromise) {
    initPromise = (async () => {
      const wasmModule = await openWasm(source as any, {
        resolveModule: async (name: string) =>
          name.endsWith('farsiding_bindings_bg.js')
            ? (wasmBindgenGlue as unknown as Record<string, unknown>)
            : undefined,
      });
      setNativeModule_farsiding_bindings(wasmModule.registerSync(PLAYER_DEFINITIONS_farsiding_bindings));
      farsiding_bindings.default.initialize();
    })();
  }
  return initPromise;
}


export default {
  farsiding_bindings,
};
