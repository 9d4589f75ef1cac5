import { type ReactNode, useEffect, useState } from 'react'
import { createPortal } from 'react-dom'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import './paper.css'

const PAPERS = ['Letter', 'A4'] as const
type Paper = (typeof PAPERS)[number]

interface Props {
  /** Names the page for whoever cannot see it: "Packet of the job …". */
  readonly label: string
  readonly backWords: string
  readonly onBack: () => void
  /** What is still to come, so that nobody prints half of it; null when all is there. */
  readonly waitsFor?: string | null
  readonly children: ReactNode
}

/** Pages to be printed straight by the browser. They stand in place of everything else. */
export function PaperSheet({ label, backWords, onBack, waitsFor, children }: Props) {
  const { units } = useSelection()
  const [paper, setPaper] = useState<Paper>(units === 'us' ? 'Letter' : 'A4')
  useHiddenDesk()
  return createPortal(
    <main className="paper" data-paper={paper} aria-label={label}>
      <div className="paper-steps">
        <Button onClick={onBack}>{backWords}</Button>
        {PAPERS.map((one) => (
          <Button key={one} isPressed={one === paper} onClick={() => setPaper(one)}>
            {one}
          </Button>
        ))}
        <Button look="main" disabled={Boolean(waitsFor)} onClick={() => window.print()}>
          Print
        </Button>
        {waitsFor && <span role="status">{waitsFor}</span>}
      </div>
      <article className="paper-page">{children}</article>
    </main>,
    document.body,
  )
}

/** While the page stands, nothing behind it can be reached, on screen or on paper. */
function useHiddenDesk(): void {
  useEffect(() => {
    const root = document.getElementById('root')
    if (!root) return
    root.inert = true
    document.documentElement.classList.add('has-paper')
    return () => {
      root.inert = false
      document.documentElement.classList.remove('has-paper')
    }
  }, [])
}
