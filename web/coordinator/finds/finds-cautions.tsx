/** What nobody may do because of a record here. */
export function FindsCautions() {
  return (
    <aside className="bird-cautions" aria-label="Cautions about birds and nests">
      <h3>Before anyone touches a bird or a nest</h3>
      <ul>
        <li>
          Do not handle, move or keep birds, feathers, eggs or nests without the permits that apply.
          The wildlife agencies decide.
        </li>
        <li>
          A bird on or under energized parts is an electrical hazard first: keep away and call the
          utility’s qualified workers. A hurt bird is for a licensed rehabilitator.
        </li>
        <li>
          Buffers and seasons are advisory. Where nests are is protected: share it with nobody who
          does not need it.
        </li>
      </ul>
    </aside>
  )
}
