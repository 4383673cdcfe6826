import "./shelf.css";
import { useRef, useState } from "react";
import type { Card } from "../../session/index.ts";
import { useApp, useSession } from "../context.ts";
import { Dialog } from "../parts/dialog.tsx";
import { Compare } from "./compare.tsx";
import { Merging } from "./merging.tsx";
import { PlanCard } from "./plancard.tsx";
import { ShelfHead } from "./shelfhead.tsx";
import { type Act, type ShelfWork, useShelfWork } from "./shelfwork.ts";
import { States } from "./states.tsx";

/** The plans in this browser: opened, copied, renamed, put away; and the states of the chosen one. */
export function Shelf() {
  const { view } = useApp();
  const box = useRef<HTMLDialogElement>(null);
  const work = useShelfWork();
  const [bin, showBin] = useState(false);
  const [merging, merge] = useState<File | null>(null);
  const close = (): void => box.current?.close();
  return (
    <Dialog
      box={box}
      className="shelf"
      aria-labelledby="shelf-title"
      onClose={() => view.setState({ shelfShown: false })}
    >
      <ShelfHead cards={work.cards} bin={bin} showBin={showBin} onMerge={merge} close={close} />
      {work.problem !== null && (
        <p className="state breach" role="alert">
          This browser&apos;s store cannot be used: {work.problem}. Save the open plan to a file.
        </p>
      )}
      {merging && (
        <Merging
          key={merging.name}
          file={merging}
          done={(words) => {
            merge(null);
            if (words === null) return;
            view.setState({ spoken: words });
            close();
          }}
        />
      )}
      <ShelfParts work={work} bin={bin} isHidden={merging !== null} close={close} />
      <p className="shelf-said note" role="status">
        {work.notice}
      </p>
    </Dialog>
  );
}

/** The plans on the shelf or in the bin, and beside them the states of the chosen one. */
function ShelfParts(props: {
  readonly work: ShelfWork;
  readonly bin: boolean;
  readonly isHidden: boolean;
  readonly close: () => void;
}) {
  const { work, bin, isHidden, close } = props;
  const { act } = work;
  const open = useSession((state) => state.slot);
  const [chosen, choose] = useState(open);
  const cards = work.cards ?? [];
  const isRead = work.cards !== null || work.problem !== null;
  const shown = cards.filter((one) => (one.binnedAtMs !== null) === bin);
  const card = shown.find((one) => one.slot === chosen) ?? shown[0];
  return (
    <div className="shelf-parts" hidden={isHidden}>
      <ul className="shelf-cards" aria-label={bin ? "Plans in the bin" : "Plans"}>
        {shown.map((one) => (
          <PlanCard
            key={one.slot}
            card={one}
            open={one.slot === open}
            chosen={one.slot === card?.slot}
            onChoose={() => choose(one.slot)}
            act={act}
            close={close}
          />
        ))}
        {isRead && shown.length === 0 && (
          <li className="empty">{bin ? "The bin is empty." : "No plan is kept yet."}</li>
        )}
      </ul>
      {card && !bin && (
        <ShelfSide card={card} others={cards} open={card.slot === open} act={act} close={close} />
      )}
    </div>
  );
}

/** The states of a plan, and what it differs in from others. */
function ShelfSide(props: {
  readonly card: Card;
  readonly others: readonly Card[];
  readonly open: boolean;
  readonly act: Act;
  readonly close: () => void;
}) {
  const { card, others, open, act, close } = props;
  return (
    <section className="shelf-side" aria-label={`States of ${card.title}`}>
      <States key={`${card.slot} ${card.savedAtMs}`} card={card} open={open} act={act} close={close} />
      <Compare key={card.slot} card={card} others={others} />
    </section>
  );
}
