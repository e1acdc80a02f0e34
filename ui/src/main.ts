import { mount } from 'svelte';
import App from './App.svelte';
import { backend } from './backend';
import { app } from './state/app.svelte';
import { device } from './state/device.svelte';
import { openHandedFiles } from './state/opening';
import { inTurns } from './state/turns';
import './state/skin.svelte';
import './styles/tokens.css';
import './styles/base.css';
import './styles/controls.css';
import './styles/map.css';
import './styles/key.css';

document.documentElement.dataset.backend = backend.name;
const target = document.getElementById('app');
// Each in a turn of its own, so that none holds up a slow phone; the files' own beginning is long enough for one.
inTurns([
  () => void (target && mount(App, { target })),
  () => void app.start(),
  () => device.start(),
  openHandedFiles,
]);
