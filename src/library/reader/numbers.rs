//! Reading numbers: quantities with their unit, whole numbers, counts.
//! Never reads one beyond what a gym floor knows: that is a finding at the number.

use super::codes;
use super::fields::{Fields, Reading};
use super::hints::{unreadable, with_point};
use super::node::Node;
use crate::finding::{Finding, Placed, Severity, Span};
use crate::library::{Count, Quantity, Unit, quantity::Unreadable};

/// The largest whole number that is read: rungs, weeks, counts. Our own end.
const MOST_WHOLE: u32 = 10_000;

impl Reading {
    /// A quantity of an optional key.
    pub fn quantity_of(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
        unit: Unit,
    ) -> Option<Placed<Quantity>> {
        let node = fields.take(key)?;
        self.quantity(node, key, unit)
    }

    /// A quantity with its unit written.
    pub fn quantity(&mut self, node: &Node, key: &str, unit: Unit) -> Option<Placed<Quantity>> {
        let text = self.text(node, &format!("`{key}`"))?;
        match Quantity::read_in_reach(&text.value, unit) {
            Ok(quantity) => Some(Placed::new(quantity, text.span)),
            Err(Unreadable::OutOfReach) => {
                self.out_of_reach(&text.value, unit, text.span);
                None
            }
            Err(why) => {
                let (headline, help) = unreadable(&text.value, key, unit, why);
                let finding =
                    Finding::new(codes::BAD_QUANTITY, Severity::Error, headline, text.span)
                        .help(help);
                self.findings.push(match with_point(&text.value, unit) {
                    Some(right) => finding.mend(text.span, right),
                    None => finding,
                });
                None
            }
        }
    }

    /// A number in `unit`, with or without the unit written.
    pub fn number_in(&mut self, node: &Node, key: &str, unit: Unit) -> Option<Placed<Quantity>> {
        let text = self.text(node, &format!("`{key}`"))?;
        let Ok(number) = text.value.parse::<f64>() else { return self.quantity(node, key, unit) };
        match Quantity::within_reach(number, unit) {
            Ok(quantity) => Some(Placed::new(quantity, text.span)),
            Err(_) => {
                self.out_of_reach(&text.value, unit, text.span);
                // The setting stays known, so that nothing else is said of it.
                let (least, most) = unit.reach();
                Some(Placed::new(Quantity::new(number.clamp(least, most), unit), text.span))
            }
        }
    }

    /// Reports less or more of a unit than a gym floor knows.
    pub fn out_of_reach(&mut self, text: &str, unit: Unit, span: Span) {
        let (least, most) = unit.reach();
        let headline = format!("`{text}` is less or more than there is on a gym floor");
        let help = format!("write a value from {least} to {most} {}", unit.symbol());
        self.error(codes::BAD_QUANTITY, headline, span, help);
    }

    /// A whole number of an optional key.
    pub fn whole_of(&mut self, fields: &mut Fields<'_>, key: &'static str) -> Option<Placed<u32>> {
        let text = self.text_of(fields, key)?;
        match text.value.parse() {
            Ok(number) if number <= MOST_WHOLE => Some(Placed::new(number, text.span)),
            _ => {
                let headline = format!("`{}` is not a whole number up to {MOST_WHOLE}", text.value);
                self.error(codes::BAD_QUANTITY, headline, text.span, "write a number such as `3`");
                None
            }
        }
    }

    /// A count such as `8` or `6-10`, with an optional unit after it, up to the most of it.
    pub fn count_of(
        &mut self,
        fields: &mut Fields<'_>,
        key: &'static str,
        (unit, most): (&str, u32),
    ) -> Option<Placed<Count>> {
        let text = self.text_of(fields, key)?;
        let bare = text.value.trim_end_matches(unit).trim_end();
        match Count::read(bare, most) {
            Some(count) => Some(Placed::new(count, text.span)),
            None => {
                let headline = format!("`{}` is not a count for `{key}`", text.value);
                let ends = bare.split_once('-');
                let ends = ends.and_then(|(a, b)| {
                    Some((a.trim().parse::<u32>().ok()?, b.trim().parse::<u32>().ok()?))
                });
                let help = match ends {
                    Some((from, to)) if from > to => {
                        format!("write `{to}-{from}`, the smaller first")
                    }
                    _ => {
                        format!("write a number or a span such as `8` or `6-10`, from 1 to {most}")
                    }
                };
                self.error(codes::BAD_QUANTITY, headline, text.span, help);
                None
            }
        }
    }
}
