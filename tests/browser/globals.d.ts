// What the classic scripts of a page share, for the type checker alone; no browser reads this.
interface Window {
  rungbookCard: (card: Card) => void;
  rungbookFault: (fault: FaultCard) => void;
  rungbookFaultWords?: Record<string, { see: string; say?: string; then?: string }>;
  rungbookSession: (session: Steps) => void;
  rungbookLadder: (ladder: LadderData) => void;
  rungbookPlacingTables?: PlacingTables & { norms: NormTables };
  rungbookSearchIndex?: string;
}
declare const module: { exports: unknown } | undefined;
