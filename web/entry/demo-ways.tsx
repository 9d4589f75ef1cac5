import { DEMO_ROLES, type DemoRole } from '#contract/account.ts'
import { useEntering } from '../api/account.ts'
import { ROLE_WORDS } from '../record/role-words.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import type { Arrival } from './arrival.ts'

const WHAT_EACH_DOES: Readonly<Record<DemoRole, string>> = {
  planner: 'Sees where voltage is low and finds the pole for a regulator bank.',
  coordinator:
    'Finds poles where a bird can bridge energized parts, and records guards and covers.',
  crew: 'Finds the pole, does the work step by step, and leaves a record of it.',
  supervisor: 'Approves, issues and closes jobs, and sets the order of their steps.',
  reader: 'Looks without changing anything; nests and incidents stay hidden.',
}

/** The invented people of the demo, who need no password. */
export function DemoWays({ onEntered }: Arrival) {
  const { demo } = useEntering(onEntered)
  return (
    <section className="stack" aria-labelledby="demo-ways">
      <h2 id="demo-ways">Enter the demo</h2>
      <p className="soft">
        Invented lines, birds and people; no password. What you change stays on this machine.
      </p>
      {demo.isError && <ErrorNote title="Not entered" error={demo.error} />}
      <ul className="demo-ways">
        {DEMO_ROLES.map((role) => (
          <li key={role} className="demo-way">
            <Button
              look={role === 'planner' ? 'main' : undefined}
              disabled={demo.isPending}
              aria-describedby={`demo-way-${role}`}
              onClick={() => demo.mutate(role)}
            >
              Enter as {ROLE_WORDS[role]}
            </Button>
            <span id={`demo-way-${role}`}>{WHAT_EACH_DOES[role]}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
