import '@mantine/core/styles/baseline.css';
import '@mantine/core/styles/default-css-variables.css';
import '@mantine/core/styles/global.css';
import './ui/mantine-styles';
import './styles/base.css';
import './styles/lists.css';
import './styles/controls.css';
import './styles/frame.css';
import './styles/today.css';
import './styles/room.css';
import './styles/batches.css';
import './styles/club.css';
import './styles/print.css';
import { MantineProvider } from '@mantine/core';
import { QueryClientProvider } from '@tanstack/react-query';
import { createRoot } from 'react-dom/client';
import { queries } from './api/queries';
import { App } from './frame/App';
import { keepFocus } from './ui/keep-focus';
import { theme } from './theme';

const page = document.getElementById('page');
if (page === null) throw new Error('index.html has no #page.');
keepFocus();
createRoot(page).render(
  <MantineProvider theme={theme} defaultColorScheme="auto">
    <QueryClientProvider client={queries}>
      <App />
    </QueryClientProvider>
  </MantineProvider>,
);
