/** The workbench's pages: `src/web` into `dist/web`, from where the server hands them out. */
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

export default defineConfig({
  root: 'src/web',
  publicDir: false,
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2023',
    // Fonts stay files: the content-security policy lets none in that are part of a style sheet.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
})
