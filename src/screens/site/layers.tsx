import type { SiteLight, SiteRing } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { lasting } from "../../words/index.ts";
import { useSession } from "../context.ts";
import { leftAt } from "./shown.ts";
import { LAYER_WORDS, type Layer } from "./siteviewstate.ts";
import { useSite, useSiteView } from "./context.ts";
import { crewStyle } from "./crewstyle.ts";
import { From } from "../parts/from/from.tsx";
import { ringWords } from "./paintlimits.ts";
import type { Picture } from "./picture.ts";

/** What is said where an answer is not there yet. */
const AWAITED = "being worked out…";

/** What is shown, each layer with the sign it is drawn by and in words: switches and legend in one. */
export function Layers(props: { readonly picture: Picture }) {
  const { picture } = props;
  const { plan, ground, light, rings, walks } = picture;
  const lacking = ground ? null : groundLack(plan);
  return (
    <section className="site-layers" aria-label="Layers and legend">
      <h2>Layers</h2>
      <ul>
        <LayerRow layer="shading" sign="shade" lacking={lacking?.shading}>
          {lacking ? lacking.shading : shadingWords(light)}
        </LayerRow>
        <LayerRow layer="shadow" sign="shadow" lacking={lacking?.shadow}>
          {lacking ? lacking.shadow : shadowWords(light)}
        </LayerRow>
        <LayerRow layer="contours" sign="contour" lacking={lacking?.contours}>
          {ground
            ? `every ${ground.stepM} m, every fifth strong; 0 is the lander's ground`
            : lacking?.contours}
        </LayerRow>
        <LayerRow layer="keepOuts" sign="keep-out">
          coarse slant: nobody walks; fine, dashed rim: too hot to work once the heat is there
        </LayerRow>
        <EmergencyRow plan={plan} rings={rings.filter((ring) => ring.kind !== "stock")} />
        <StocksRow
          plan={plan}
          minuteS={picture.minuteS}
          rings={rings.filter((ring) => ring.kind === "stock")}
          isLevel={rings.some((ring) => ring.over === "level")}
        />
        <LayerRow layer="ways" sign="way">
          {plan.crew.map((member) => (
            <div key={member.id} className="site-limit">
              <CrewLine picture={picture} crew={member.id} /> {member.name}, {crewStyle(plan, member.id).word}
            </div>
          ))}
          {walks?.courses.length === 0 && "nobody goes out on this day"}
        </LayerRow>
        <LayerRow layer="times" sign="time">
          at places from–to; on ways when each minute mark is passed
        </LayerRow>
        <LayerRow layer="names" sign="name">
          triangle lander, circle station, square deployment; filled sign with a name: somebody there
        </LayerRow>
      </ul>
      <p className="note">
        {ground ? `Ground ${ground.source}. ` : ""}Walk-backs are rounded up, limits down: none is shown
        better than it is. The longest allowed walk back shown here is no permission.
        {walks && ` Farthest place: ${lasting(Math.max(0, ...walks.places.map((one) => one.homeS)), "up")}.`}
      </p>
    </section>
  );
}

/** Why there is no ground to draw: the plan has none, or it is not worked out yet, of which nothing more is said. */
function groundLack(plan: Plan): { readonly [layer in "shading" | "shadow" | "contours"]: string } {
  if (plan.ground) return { shading: AWAITED, shadow: AWAITED, contours: AWAITED };
  return {
    shading: "the plan has no height grid: ways are straight lines",
    shadow: "no height grid: where shadows lie is not known",
    contours: "no height grid",
  };
}

function shadingWords(light: SiteLight | null): string {
  if (light?.by !== "convention") return "from the true sun at the minute";
  const why = light.sun ? "the sun is down" : "the sun is not known";
  return `${why}: shaded from the north-west to be read by`;
}

function shadowWords(light: SiteLight | null): string {
  if (!light) return AWAITED;
  return light.lit ? "ground the sun does not reach, by these heights alone" : "not known";
}

interface Limits {
  readonly plan: Plan;
  readonly rings: readonly SiteRing[];
}

/** How far emergency oxygen reaches, for each crew member. */
function EmergencyRow({ plan, rings }: Limits) {
  const nobodys = plan.suits.some(({ toGive }) => toGive?.includes("emergencyOxygenS"));
  return (
    <LayerRow layer="emergency" sign="emergency">
      full line: walk back as long as emergency oxygen less its reserve; dashed: with the partner&apos;s
      cooling shared, as the flight rules in charge allow it
      {nobodys && (
        <div className="site-limit state tight">
          Emergency oxygen is to be given in setup: until then these limits come from a value that nobody
          gave.
        </div>
      )}
      {rings.map((ring, k) => (
        <div key={k} className="site-limit">
          {ringWords(plan, ring)} <From of={ringWords(plan, ring)} from={ring.from} />
        </div>
      ))}
    </LayerRow>
  );
}

/** How far what the suits outside have left reaches. */
function StocksRow(props: Limits & { readonly minuteS: number; readonly isLevel: boolean }) {
  const { plan, rings, minuteS, isLevel } = props;
  const isOut = useSession((state) => leftAt(state.verdict, minuteS).length > 0);
  return (
    <LayerRow layer="stocks" sign="stock">
      in the crew member&apos;s pattern: walk back as long as the suit&apos;s stock lasts at the minute
      {rings.length === 0 && (
        <div className="site-limit">{isOut ? AWAITED : "Nobody is outside at this minute."}</div>
      )}
      {rings.map((ring, k) => (
        <div key={k} className="site-limit">
          {ringWords(plan, ring)}
          {ring.lines.length === 0 && ring.seconds > 0 && " (beyond the map)"}{" "}
          <From of={ringWords(plan, ring)} from={ring.from} />
        </div>
      ))}
      {isLevel && (
        <div className="site-limit">Over level, open ground: slopes and keep-outs are not counted.</div>
      )}
    </LayerRow>
  );
}

function LayerRow(props: {
  readonly layer: Layer;
  readonly sign: string;
  /** Why there is nothing to draw it from, so that it cannot be switched on. */
  readonly lacking?: string | undefined;
  readonly children: React.ReactNode;
}) {
  const { layer, lacking } = props;
  const { siteView } = useSite();
  const shown = useSiteView((state) => state.layers[layer]);
  return (
    <li>
      <label>
        <input
          type="checkbox"
          checked={shown && lacking === undefined}
          disabled={lacking !== undefined}
          title={lacking}
          onChange={(event) => {
            const { checked } = event.target;
            siteView.setState((now) => ({ layers: { ...now.layers, [layer]: checked } }));
          }}
        />
        <i className={`site-sign sign-${props.sign}`} aria-hidden="true" />
        <b>{LAYER_WORDS[layer]}</b>
      </label>
      <div className="note">{props.children}</div>
    </li>
  );
}

function CrewLine(props: { readonly picture: Picture; readonly crew: string }) {
  const style = crewStyle(props.picture.plan, props.crew);
  return (
    <svg width="40" height="8" aria-hidden="true">
      <line
        x1="0"
        y1="4"
        x2="40"
        y2="4"
        stroke={`var(--${style.colour})`}
        strokeWidth="3"
        strokeDasharray={style.dash.join(" ")}
      />
    </svg>
  );
}
