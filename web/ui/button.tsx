import type { ComponentProps } from 'react'
import './button.css'

interface Props extends ComponentProps<'button'> {
  /** `main` is the person's next step: at most one on a screen. */
  readonly look?: 'main' | 'danger' | 'plain'
  /** For a button that stays down. */
  readonly isPressed?: boolean
}

export function Button({ look, isPressed, className = '', type = 'button', ...rest }: Props) {
  const looks = look ? `button button-${look}` : 'button'
  return (
    <button {...rest} type={type} className={`${looks} ${className}`} aria-pressed={isPressed} />
  )
}
