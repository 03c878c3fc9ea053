// What the classic scripts of a page share, for the type checker alone; no browser reads this.
interface Window {
  rungbookCard: (card: Card) => void;
  rungbookFault: (fault: FaultCard) => void;
  rungbookFaultWords?: Record<string, { see: string; say?: string; then?: string }>;
  rungbookSession: (session: Steps) => void;
  rungbookWeeks: (weeks: CycleWeeks) => void;
  rungbookLadder: (ladder: LadderData) => void;
  rungbookPlacingTables?: PlacingTables & { norms: NormTables };
  rungbookSearchIndex?: string;
  rungbookStopWords?: { signs: string[]; said: string[][]; faults: string[] };
}
/** What the scripts know by id (`data/words.js`). */
interface Words {
  traits: Record<string, { name: string; avoid: string }>;
  situations: Record<string, { name: string; asks: string; start?: string; how: Record<string, string> }>;
  changes: Record<string, { id: string; name: string; how: string; part: string; leaves: string; eases: string; brings: string; takes?: string; kit: string; with: string }>;
  kit: Record<string, string>;
}
declare var rungbookWords: Words | undefined;
/** The own signs of situations (`data/signs.js`), by id. */
declare var rungbookSignWords: Record<string, { now: [string, string[]][], stop: string[] }> | undefined;
declare const module: { exports: unknown } | undefined;
