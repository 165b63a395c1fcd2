import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Desk } from './shell/Desk.tsx';
import './shell/paper.css';

createRoot(document.getElementById('page')!).render(<StrictMode><Desk /></StrictMode>);
