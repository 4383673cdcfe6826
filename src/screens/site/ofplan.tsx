import { type ReactNode, useMemo } from "react";
import { useSession } from "../context.ts";
import { SiteContext, type SiteParts } from "./context.ts";

/** What shows the open plan's site. Another plan begins anew: no answer of the one before stands over it. */
export function SiteOfPlan(props: SiteParts & { readonly children: ReactNode }) {
  const { site, siteView, children } = props;
  const parts = useMemo(() => ({ site, siteView }), [site, siteView]);
  const slot = useSession((state) => state.slot);
  return (
    <SiteContext key={slot} value={parts}>
      {children}
    </SiteContext>
  );
}
