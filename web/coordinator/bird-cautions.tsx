/** What nobody may read out of this screen. Stands once, at the foot of the desk. */
export function BirdCautions() {
  return (
    <aside className="bird-cautions" aria-label="Cautions">
      <h3>Before anyone acts on this</h3>
      <ul>
        <li>
          Guards, covers and perches protect birds, not people. A covered conductor is a bare
          conductor to a worker: the utility's safety rules and qualified workers govern.
        </li>
        <li>
          Eagles and most other birds and their nests are protected by law. Permits and the wildlife
          agencies decide what may be done, and when; buffers and seasons here are advisory.
        </li>
        <li>
          A separation that reaches guidance lowers the danger for eagles; it proves nothing about
          taller birds, wet feathers, or parts that nobody measured.
        </li>
      </ul>
    </aside>
  )
}
