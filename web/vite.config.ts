import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

// The Makefile hands the same value to the Go linker, so that the page can
// refuse a core built from other sources than itself.
const version = process.env["HALFSPLIT_VERSION"] ?? "dev";

export default defineConfig({
  base: "./",
  define: { __VERSION__: JSON.stringify(version) },
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    // An inlined asset would be a data: URL, which the page's policy forbids.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // Over 500 kB is the core itself, weighed by "make size".
    chunkSizeWarningLimit: 6000,
  },
  worker: { format: "es" },
  server: { fs: { allow: [".."] } },
  plugins: [
    VitePWA({
      // "prompt": a new version waits until the person says yes.
      registerType: "prompt",
      injectRegister: false,
      manifest: {
        name: "Halfsplit",
        short_name: "Halfsplit",
        description: "Trace a dead instrument at an open control panel, offline.",
        start_url: "./",
        scope: "./",
        display: "standalone",
        orientation: "portrait",
        background_color: "#e9e9e4",
        theme_color: "#1c2321",
        // What it opens and takes when it is installed: see src/receive/doors.tsx.
        file_handlers: [{ action: "./", accept: { "application/json": [".json", ".halfsplit.json"] } }],
        share_target: {
          action: "./shared",
          method: "POST",
          enctype: "multipart/form-data",
          params: {
            title: "title",
            text: "text",
            url: "url",
            files: [{ name: "file", accept: ["application/json", ".json", "text/plain", ".txt"] }],
          },
        },
        icons: [
          { src: "icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "icon-mask.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
      workbox: {
        // Without wasm here, and without the raised limit, Workbox leaves the
        // core out of the cache and says nothing.
        globPatterns: ["**/*.{html,js,css,wasm,png,svg,webmanifest}"],
        globIgnores: ["shared.js"], // kept with the service worker itself
        maximumFileSizeToCacheInBytes: 12 * 1024 * 1024,
        navigateFallback: "index.html",
        // Before Workbox's own: it takes what is shared to the page, offline too.
        importScripts: ["shared.js"],
        clientsClaim: true,
        skipWaiting: false,
      },
    }),
  ],
});
