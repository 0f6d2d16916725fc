import { svelte } from "@sveltejs/vite-plugin-svelte";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

const here = (p: string) => fileURLToPath(new URL(p, import.meta.url));

export default defineConfig({
  base: "./",
  // The one seam: the mock while screens are built; the worker client in a product build (CORE=…/client.ts).
  resolve: { alias: { "#core": here(process.env.CORE ?? "./src/core/mock.ts") } },
  build: { target: "es2022", assetsInlineLimit: 0 },
  plugins: [
    svelte(),
    VitePWA({
      strategies: "injectManifest", srcDir: "src", filename: "sw.ts", injectRegister: false,
      injectManifest: { globPatterns: ["**/*.{html,js,css,woff2,svg,wasm,webmanifest}"], maximumFileSizeToCacheInBytes: 4_000_000 },
      manifest: {
        id: "./", name: "Farsiding", short_name: "Farsiding", start_url: "./", scope: "./", display: "standalone", orientation: "portrait",
        background_color: "#eceeea", theme_color: "#eceeea", icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
      },
    }),
  ],
});
