import { LoadingNote } from '../ui/state-note.tsx'
import { StartPage } from './start-page.tsx'

/** Stands for the whole page until its part has come. */
export function LoadingPage({ what }: { readonly what: string }) {
  return (
    <StartPage>
      <LoadingNote what={what} />
    </StartPage>
  )
}
