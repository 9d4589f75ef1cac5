import { type KeyboardEvent, type ReactNode, useId, useRef } from 'react'
import './tabs.css'

interface Props<Id extends string> {
  /** What the tabs are of: "Bird work". */
  readonly label: string
  readonly tabs: readonly { readonly id: Id; readonly name: string }[]
  readonly chosen: Id
  readonly onChoose: (id: Id) => void
  /** What the chosen tab shows. */
  readonly children: ReactNode
}

const STEPS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1 }

/** Tabs over one panel: arrow keys go along them, Home and End to the ends. */
export function Tabs<Id extends string>({ label, tabs, chosen, onChoose, children }: Props<Id>) {
  const id = useId()
  const ref = useRef<HTMLDivElement>(null)
  const goTo = (index: number) => {
    const tab = tabs[(index + tabs.length) % tabs.length]
    if (!tab) return
    onChoose(tab.id)
    ref.current?.querySelector<HTMLElement>(`[data-tab="${tab.id}"]`)?.focus()
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const at = tabs.findIndex((tab) => tab.id === chosen)
    const step = STEPS[event.key]
    if (step === undefined && event.key !== 'Home' && event.key !== 'End') return
    event.preventDefault()
    if (step !== undefined) goTo(at + step)
    else goTo(event.key === 'Home' ? 0 : tabs.length - 1)
  }
  return (
    <div className="stack">
      <div ref={ref} className="tabs" role="tablist" aria-label={label} onKeyDown={onKeyDown}>
        {tabs.map((tab) => (
          <button
            key={tab.id}
            type="button"
            role="tab"
            className="tab"
            id={`${id}-${tab.id}`}
            data-tab={tab.id}
            aria-selected={tab.id === chosen}
            aria-controls={`${id}-panel`}
            tabIndex={tab.id === chosen ? 0 : -1}
            onClick={() => onChoose(tab.id)}
          >
            {tab.name}
          </button>
        ))}
      </div>
      <div id={`${id}-panel`} role="tabpanel" aria-labelledby={`${id}-${chosen}`} className="stack">
        {children}
      </div>
    </div>
  )
}
