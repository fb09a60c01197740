import { defineConfig } from 'vitest/config';
import shared from '../vitest.config';

/** One place of one file reads otherwise: `CHANGED` says which. */
const { file, from, to } = JSON.parse(process.env.CHANGED ?? '{}') as { file: string; from: string; to: string };

export default defineConfig({
  ...shared,
  plugins: [{ name: 'one change', enforce: 'pre', transform: (code, id) => (id === file ? code.replace(from, to) : null) }],
});
