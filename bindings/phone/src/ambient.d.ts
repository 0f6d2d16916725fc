/// <reference types="vite/client" />
declare module "#core" { export function openCore(): Promise<import("./core/port").CorePort>; }
