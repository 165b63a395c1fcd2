#!/usr/bin/env node
// watermeadow COMMAND: installs and builds on first use, then runs the command.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureBuilt, ensureInstalled, root } from './prepare.js';

ensureInstalled();
ensureBuilt();
await import(pathToFileURL(join(root, 'dist', 'cli', 'main.js')).href);
