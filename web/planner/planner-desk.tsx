import { useFeeder } from '../state/feeder.tsx'

export function PlannerDesk() {
  const { feeder, customers } = useFeeder()
  return (
    <div className="stack">
      <h2>{feeder.header.name}</h2>
      <p>
        {feeder.poles.length} poles, {customers} customers.
      </p>
    </div>
  )
}
