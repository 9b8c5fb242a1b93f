/** A view whose code is loaded when it is first opened. */
import { Button } from '@fluentui/react-components';
import { Component, lazy, Suspense, type ComponentType, type ReactNode } from 'react';
import { t, type Marked } from '../locale';
import type { PaneContext, View } from '../shared/view';

type Body = ComponentType<{ readonly pane: PaneContext }>;

/** The view of a folder that exports `Body`, by a function that imports the folder. */
export function later(id: string, label: Marked, load: () => Promise<{ readonly Body: Body }>): View {
  const fetchBody = () => lazy(() => load().then(({ Body }) => ({ default: Body })));
  return { id, label, Body: ({ pane }) => <Loading label={label} fetchBody={fetchBody} pane={pane} /> };
}

interface Props {
  readonly label: Marked;
  readonly fetchBody: () => Body;
  readonly pane: PaneContext;
}

/** Shows the view when it is there, and what to do where it could not be fetched. */
class Loading extends Component<Props, { readonly Loaded: Body; readonly failed: boolean }> {
  override state = { Loaded: this.props.fetchBody(), failed: false };

  static getDerivedStateFromError(): { failed: true } {
    return { failed: true };
  }

  override render(): ReactNode {
    const { label, fetchBody, pane } = this.props;
    const { Loaded, failed } = this.state;
    if (failed) {
      return (
        <div role="alert" style={{ padding: 12 }}>
          <p>{t('The tab “{view}” could not be shown. Nothing in the workbook has changed.', { view: t(label) })}</p>
          <Button onClick={() => this.setState({ Loaded: fetchBody(), failed: false })}>{t('Try again')}</Button>
        </div>
      );
    }
    return (
      <Suspense
        fallback={
          <p role="status" style={{ padding: 12 }}>
            {t('Opening {view} …', { view: t(label) })}
          </p>
        }
      >
        <Loaded pane={pane} />
      </Suspense>
    );
  }
}
