import { Component, type ComponentType, type ReactNode, Suspense, use } from "react";

/** A screen with code of its own. */
interface Fetched {
  /** Draws it; its code is fetched when that happens for the first time. */
  readonly Screen: ComponentType;
  /** Fetches its code ahead; where that fails it is tried again when it is shown. */
  fetch(): Promise<void>;
}

/** A screen that `load` fetches, once. */
export function fetched(load: () => Promise<ComponentType>): Fetched {
  let known: ComponentType | null = null;
  let loading: Promise<ComponentType> | null = null;
  const once = (): Promise<ComponentType> => {
    loading ??= load().then((screen) => (known = screen));
    return loading;
  };
  return {
    Screen() {
      // What is there already is drawn at once, without a word of waiting.
      const Ready = known ?? use(once());
      return <Ready />;
    },
    async fetch() {
      try {
        await once();
      } catch {
        loading = null;
      }
    },
  };
}

/** A part of the program whose code may have to be fetched first; what cannot be had is said in its place, and the rest goes on. */
export class OnDemand extends Component<
  { readonly name: string; readonly children: ReactNode },
  { readonly failure: string | null }
> {
  override state = { failure: null };

  static getDerivedStateFromError(error: unknown): { failure: string } {
    return { failure: error instanceof Error ? error.message : "unknown" };
  }

  override render(): ReactNode {
    const { failure } = this.state;
    if (failure !== null)
      return (
        <div className="shell-unfetched" role="alert">
          <p>
            <b>Problem.</b> The {this.props.name} cannot be shown: {failure}.
          </p>
          <button type="button" onClick={() => location.reload()}>
            Load the page again
          </button>
        </div>
      );
    return (
      <Suspense
        fallback={
          <p className="shell-fetching" role="status">
            Fetching the {this.props.name}…
          </p>
        }
      >
        {this.props.children}
      </Suspense>
    );
  }
}
