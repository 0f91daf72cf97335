import { defineConfig } from 'vite';

export default defineConfig({ envPrefix: 'SKEWBOOK_' });
