// The addresses of the office's pages, by the name their pictures have.

/** The pages of a clerk. */
export const pagesOf = ({ visit, draft, edition }) => ({
  today: "/office/",
  inquiry: "/office/inquiry?q=ZZQX",
  near: "/office/inquiry?q=ZZQX+70421",
  nothing: "/office/inquiry?q=QQQX+1",
  visit: `/office/visits/${visit}`,
  devices: "/office/devices",
  people: "/office/people",
  late: "/office/late",
  refused: "/office/refused",
  reconcile: "/office/reconcile",
  "empty-month": "/office/reconcile?month=2025-01",
  seals: "/office/seals",
  defects: "/office/defects",
  instruments: "/office/instruments",
  papers: "/office/papers",
  procedures: "/office/procedures",
  "procedure-edition": `/office/procedures/editions/${edition}`,
  "procedure-draft": `/office/procedures/drafts/${draft}`,
  "procedure-step": `/office/procedures/drafts/${draft}/steps/transfer_readings`,
  "procedure-add": `/office/procedures/drafts/${draft}/add`,
  "procedure-gates": `/office/procedures/drafts/${draft}/gates`,
  "procedure-preview": `/office/procedures/drafts/${draft}/preview`,
  "procedure-publish": `/office/procedures/drafts/${draft}/publish`,
  own: "/office/own",
  accounts: "/office/accounts",
  audit: "/office/audit",
  state: "/office/state",
  "not-here": "/office/nothing",
});

/** The pages of somebody who has not signed in. */
export const pagesOfStranger = ({ link }) => ({
  "sign-in": "/office/sign-in",
  link: new URL(link).pathname,
  "link-is-over": "/office/link/AAAA",
});
