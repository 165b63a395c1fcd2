// npm run build: compile the program and the pages.
import { ensureBuilt, ensureInstalled } from './prepare.js';

ensureInstalled();
ensureBuilt();
