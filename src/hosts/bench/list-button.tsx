/** A button of the bar with a list of what it can do. */
import { Button } from '@fluentui/react-components';
import type { ReactNode } from 'react';

interface Props {
  readonly id: string;
  readonly title: string;
  /** What the list holds, for those who hear it. */
  readonly about: string;
  readonly disabled?: boolean;
  readonly children: ReactNode;
}

export const ListButton = ({ id, title, about, disabled = false, children }: Props) => (
  <>
    {/* A button that is disabled while its own choice works would lose the keyboard. */}
    <Button size="small" popoverTarget={id} disabledFocusable={disabled}>
      {title}
    </Button>
    <div
      id={id}
      popover="auto"
      className="bar-list"
      role="group"
      aria-label={about}
      onClick={({ currentTarget }) => currentTarget.hidePopover()}
    >
      {children}
    </div>
  </>
);

export const Entry = ({
  onClick,
  title,
  about,
}: {
  readonly onClick: () => void;
  readonly title: ReactNode;
  readonly about?: string;
}) => (
  <button type="button" onClick={onClick}>
    {title}
    {about && <small>{about}</small>}
  </button>
);
