import { useFeeder } from '../state/feeder.tsx'

export function ProfileStrip() {
  const { feeder } = useFeeder()
  return <p>{feeder.header.name}</p>
}
