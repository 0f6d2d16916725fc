/// <reference types="vite/client" />
/// <reference types="svelte" />
declare module "#core" {
  export function openCore(options: import("./core/calls").OpenOptions): import("./core/calls").Opened;
}
