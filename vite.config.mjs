import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

/** Lays a compressed copy beside each file, so that the service need not compress. */
const compress = {
  name: 'compress',
  enforce: 'post',
  closeBundle: {
    sequential: true,
    order: 'post',
    handler() {
      const root = path.resolve(import.meta.dirname, 'dist/web');
      for (const entry of readdirSync(root, { recursive: true, withFileTypes: true })) {
        if (!/\.(js|css|html|svg|webmanifest)$/.test(entry.name)) continue;
        const file = path.join(entry.parentPath, entry.name);
        const content = readFileSync(file);
        writeFileSync(`${file}.br`, brotliCompressSync(content));
        writeFileSync(`${file}.gz`, gzipSync(content, { level: 9 }));
      }
    },
  },
};

// The page: built from src/web into dist/web, where the service finds it.
export default defineConfig({
  root: 'src/web',
  publicDir: 'public',
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    rolldownOptions: {
      onLog(level, log, handle) {
        // "use client" means nothing where all is client.
        if (log.code !== 'MODULE_LEVEL_DIRECTIVE') handle(level, log);
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:3000' } },
  plugins: [
    VitePWA({
      registerType: 'prompt',
      // A file of its own: the page's policy allows no inline script.
      injectRegister: false,
      manifest: {
        name: 'The Creaming Room',
        short_name: 'Creaming Room',
        description: 'What to do now and next in the club’s creaming room.',
        theme_color: '#5f3b00',
        background_color: '#fdf8ec',
        display: 'standalone',
        icons: [{ src: '/mark.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,woff2}'],
        navigateFallback: '/index.html',
        navigateFallbackDenylist: [/^\/(api|health|metrics|problems)(\/|$)/],
        runtimeCaching: [
          {
            // What was read last is there without a network; with one, the service is asked.
            urlPattern: ({ url, request }) =>
              request.method === 'GET' &&
              url.pathname.startsWith('/api/v1/') &&
              !/\.(csv|pdf|ics)$/.test(url.pathname),
            handler: 'NetworkFirst',
            options: {
              cacheName: 'read-last',
              networkTimeoutSeconds: 5,
              expiration: { maxEntries: 300, maxAgeSeconds: 14 * 86_400 },
              cacheableResponse: { statuses: [200] },
            },
          },
        ],
      },
    }),
    compress,
  ],
});
