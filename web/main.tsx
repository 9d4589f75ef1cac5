import '@fontsource-variable/source-sans-3/index.css'
import './ui/tokens.css'
import './ui/page.css'
import { QueryClientProvider } from '@tanstack/react-query'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { queryClient } from './api/query-client.ts'
import { startDevice } from './api/start-device.ts'
import { App } from './app.tsx'
import { startTheme } from './state/theme.ts'

startTheme()
startDevice()

const root = document.getElementById('root')
if (!root) throw new Error('Expected an element "root" in index.html.')
createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <App />
    </QueryClientProvider>
  </StrictMode>,
)
