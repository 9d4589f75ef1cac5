interface Props {
  /** Path on a grid of 24 units. */
  readonly path: string
  readonly sizePx?: number
}

/** A line drawing beside words that say what it is; by itself it says nothing to a screen reader. */
export function Drawing({ path, sizePx = 20 }: Props) {
  return (
    <svg
      width={sizePx}
      height={sizePx}
      viewBox="0 0 24 24"
      fill="none"
      stroke="currentColor"
      strokeWidth={1.5}
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={path} />
    </svg>
  )
}
