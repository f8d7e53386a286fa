import { createHash } from 'node:crypto'
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

const workerName = 'service-worker.js'

/**
 * Tells the service worker which files the app is made of. It has the same name in every build, so that
 * a browser finds the next one.
 */
const shellOf = (): Plugin => ({
  name: 'shell-of-app',
  apply: 'build',
  buildStart() {
    this.emitFile({
      type: 'chunk',
      id: at('src/app/shell-worker/service-worker.ts'),
      fileName: workerName,
    })
  },
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      const worker = bundle[workerName]
      if (worker?.type !== 'chunk') throw new Error('The service worker was not built.')
      const files = Object.values(bundle).flatMap((file) =>
        /\.(js|css|wasm)$/.test(file.fileName) && file !== worker ? [file] : [],
      )
      const names = files.map(({ fileName }) => `/${fileName}`).toSorted()
      const digest = createHash('sha256').update(names.join()).update(worker.code).digest('hex')
      const shell = [...names, '/layers.css', '/icon.svg', '/app.webmanifest']
      worker.code = `const shellFiles=${JSON.stringify(shell)},shellVersion="${digest.slice(0, 12)}";${worker.code}`
    },
  },
})

/** Builds the web app into dist/app. */
// Vite takes its configuration from a default export.
// oxlint-disable-next-line import/no-default-export
export default defineConfig({
  root: at('src/app'),
  publicDir: at('src/app/public'),
  plugins: [react(), demoPrintsBeside(), shellOf()],
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
