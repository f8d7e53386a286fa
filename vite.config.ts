import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

/**
 * Builds the web app into dist/app; or with `--mode fixture`, into dist/app-fixture, the same app on
 * the invented shelf of test/app/fixture, with which it is tested and its pictures are made.
 */
// Vite takes its configuration from a default export.
// oxlint-disable-next-line import/no-default-export
export default defineConfig(({ mode }) => ({
  root: at(mode === 'fixture' ? 'test/app/fixture' : 'src/app'),
  publicDir: at('src/app/public'),
  plugins: [react()],
  build: {
    outDir: at(mode === 'fixture' ? 'dist/app-fixture' : 'dist/app'),
    // Made anew in every build, and never elsewhere.
    emptyOutDir: true,
    target: 'es2023',
    // A file given as data is refused by the page's content policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  worker: { format: 'es' as const },
}))
