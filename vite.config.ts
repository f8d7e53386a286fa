import { fileURLToPath } from 'node:url'
import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'
import { demoPrints } from './demo/prints/index.ts'

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

/** Prints of the demo bench beside the app, for who has none at hand. */
const demoPrintsBeside = (): Plugin => ({
  name: 'demo-prints',
  generateBundle() {
    for (const { fileName, write } of demoPrints) {
      this.emitFile({ type: 'asset', fileName: `demo/${fileName}`, source: write() })
    }
  },
})

/** Builds the web app into dist/app. */
// Vite takes its configuration from a default export.
// oxlint-disable-next-line import/no-default-export
export default defineConfig({
  root: at('src/app'),
  publicDir: at('src/app/public'),
  plugins: [react(), demoPrintsBeside()],
  build: {
    outDir: at('dist/app'),
    // Made anew in every build, and never elsewhere.
    emptyOutDir: true,
    target: 'es2023',
    // A file given as data is refused by the page's content policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  worker: { format: 'es' as const },
})
