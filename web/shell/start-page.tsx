import type { ReactNode } from 'react'
import { AccountMenu } from './account-menu.tsx'
import './start-page.css'

/** What stands where no feeder is open. */
export function StartPage({ children }: { readonly children: ReactNode }) {
  return (
    <main className="start-page">
      <header className="start-page-head">
        <h1>Crossarm</h1>
        <AccountMenu />
      </header>
      {children}
    </main>
  )
}
