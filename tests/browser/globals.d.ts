// What the classic scripts of a page share, for the type checker alone; no browser reads this.
interface Window {
  rungbookCard: (card: Card) => void;
  rungbookSession: (session: Steps) => void;
  rungbookLadder: (ladder: LadderData) => void;
  rungbookPlacingTables?: PlacingTables & { norms: NormTables };
  rungbookSearchIndex?: string;
}
declare const module: { exports: unknown } | undefined;
