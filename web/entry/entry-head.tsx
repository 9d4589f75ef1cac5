export function EntryHead() {
  return (
    <header>
      <h1 className="entry-mark">Crossarm</h1>
      <p className="soft">Voltage, birds and crew work on the same distribution poles.</p>
    </header>
  )
}
