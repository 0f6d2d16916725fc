/**
 * Guide numbers of the Emergency Response Guidebook, edition 2024 (PHMSA, Transport Canada, SCT), for what pressure cars of liquefied
 * gas carry. From memory: to be compared with the book before anyone relies on it. Shown on the emergency card, which says to call first.
 */
const GUIDES: Readonly<Record<string, string>> = { UN1011: "115", UN1012: "115", UN1055: "115", UN1075: "115", UN1077: "115", UN1965: "115", UN1969: "115", UN1978: "115" };
export const guideOf = (un: string): string | undefined => GUIDES[un];
