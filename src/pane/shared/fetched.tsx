/**
 * Code that is fetched when it is first shown. Not by React's lazy and Suspense: they hold back what follows a
 * waiting sign for .3 s, and so the first look at every tab.
 */
import { Button, makeStyles } from '@fluentui/react-components';
import { Component, type ReactNode } from 'react';
import { t } from '../locale';

/** A module that is fetched once; one that could not be fetched is fetched anew when it is asked for again. */
export interface Code<M> {
  /** The module, once it is here. */
  here?: M;
  readonly fetch: () => Promise<M>;
}

/** The module that a function imports. */
export function fetchedCode<M>(load: () => Promise<M>): Code<M> {
  const code: Code<M> = { fetch: async () => (code.here ??= await load()) };
  return code;
}

interface Props<M> {
  readonly code: Code<M>;
  /** Said while the code is on its way. */
  readonly waiting?: string;
  /** Said where it could not be fetched or shown. */
  readonly failed: string;
  readonly children: (module: M) => ReactNode;
}

/** Shows what the code gives when it is there, and a way to try again where it could not be fetched. */
export class Fetched<M> extends Component<Props<M>, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: true } {
    return { failed: true };
  }

  private readonly fetch = async (): Promise<void> => {
    this.setState({ failed: false });
    await this.props.code.fetch().then(
      () => this.setState({ failed: false }),
      () => this.setState({ failed: true }),
    );
  };

  override componentDidMount(): void {
    if (!this.props.code.here) void this.fetch();
  }

  override render(): ReactNode {
    const { code, waiting, failed, children } = this.props;
    if (this.state.failed) {
      return (
        <div role="alert" style={{ padding: 12 }}>
          <p>{failed}</p>
          <Button onClick={() => void this.fetch()}>{t('Try again')}</Button>
        </div>
      );
    }
    return code.here ? children(code.here) : waiting && <Waiting text={waiting} />;
  }
}

const useStyles = makeStyles({
  // What is here at once is not announced by a sign that comes and goes.
  late: { padding: '12px', animationName: { from: { opacity: 0 }, to: { opacity: 0 } }, animationDuration: '.2s' },
});

function Waiting({ text }: { readonly text: string }) {
  const styles = useStyles();
  return (
    <p role="status" className={styles.late}>
      {text}
    </p>
  );
}
