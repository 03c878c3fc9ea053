//! Letters of the exported index: whole numbers, texts and lists of entries as one text, which a
//! script holds as it is and a page reads without unpacking it first.
//! Never knows what they mean.

use crate::search::SearchError;

/// The letter of nothing: the first that is neither a space nor a quotation mark.
const FIRST: u32 = 0x23;
/// The one letter from there on that a script would have to write in another way.
const BACKSLASH: u32 = 0x5c;
/// The bits of a number in one letter; one more says that the number goes on.
const DIGIT: u32 = 14;
/// The most that one letter stands for: the letters after it stand in pairs.
const MOST: usize = 0xd7ff - 0x24;
/// The bits of a list in one letter: all of them take one byte.
const OF_LIST: usize = 6;

/// The letter of a number up to [`MOST`].
fn letter(value: u32) -> char {
    let at = FIRST + value;
    let at = if at >= BACKSLASH { at + 1 } else { at };
    char::from_u32(at).unwrap_or(char::REPLACEMENT_CHARACTER)
}

/// Appends a number as one letter, so that it can be read where it stands.
///
/// # Errors
/// When it is more than one letter can stand for: a page would read something else.
pub fn one_letter(out: &mut String, number: usize) -> Result<(), SearchError> {
    if number > MOST {
        return Err(SearchError::new(
            "it holds more than 27,000 different words, or one entry has more than 55,000 names, \
             faults, cues or rungs; split the library in two",
        ));
    }
    out.push(letter(number as u32));
    Ok(())
}

/// Appends a whole number, fourteen bits a letter, the lowest first.
pub fn number(out: &mut String, mut number: usize) {
    let more = 1 << DIGIT;
    while number >= more {
        out.push(letter((number % more + more) as u32));
        number >>= DIGIT;
    }
    out.push(letter(number as u32));
}

/// Appends a text: its length in UTF-16 units, then itself.
pub fn text(out: &mut String, text: &str) {
    number(out, text.encode_utf16().count());
    out.push_str(text);
}

/// Bits, the highest of each letter first.
#[derive(Default)]
pub struct Bits {
    values: Vec<u8>,
    used: usize,
}

impl Bits {
    fn push(&mut self, value: usize, width: usize) {
        for at in (0..width).rev() {
            if self.used.is_multiple_of(OF_LIST) {
                self.values.push(0);
            }
            let bit = (value >> at & 1) as u8;
            if let Some(last) = self.values.last_mut() {
                *last |= bit << (OF_LIST - 1 - self.used % OF_LIST);
            }
            self.used += 1;
        }
    }

    /// A number from 1 on, in about twice as many bits as it has (Elias 1975, gamma code).
    fn gamma(&mut self, number: usize) {
        let width = number.ilog2() as usize;
        self.push(0, width);
        self.push(number, width + 1);
    }

    /// An ascending list of numbers below `below`: its length, then the steps between neighbours,
    /// each as a low part of fixed width and a count of the rest (Rice 1979).
    pub fn list(&mut self, list: &[usize], below: usize) {
        self.gamma(list.len() + 1);
        let low = low_bits(list.len(), below);
        let mut next = 0;
        for number in list {
            let step = number - next;
            (0..step >> low).for_each(|_| self.push(0, 1));
            self.push(1, 1);
            self.push(step & ((1 << low) - 1), low);
            next = number + 1;
        }
    }

    /// The bits so far as letters, the last one filled with zeros.
    pub fn letters(&self) -> String {
        self.values.iter().map(|value| letter(u32::from(*value))).collect()
    }
}

/// The width of the low part that suits `count` numbers below `below`: the mean step times 0.69,
/// the natural logarithm of two, which is best for steps that fall at random.
fn low_bits(count: usize, below: usize) -> usize {
    let mut low = 0;
    while (count + 1) << (low + 1) <= below * 69 / 100 {
        low += 1;
    }
    low
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_its_length_then_its_steps() {
        let mut bits = Bits::default();
        bits.list(&[0, 3], 4);
        // Length 2: gamma(3) = 011. No low bits: (3 << 1) > 2. Steps 0 and 2: 1, 001.
        assert_eq!(bits.values, [0b011100, 0b100000]);
        let mut bits = Bits::default();
        bits.list(&[9], 16);
        // Length 1: gamma(2) = 010. Two low bits: 2 << 2 <= 11. Step 9 = 2 * 4 + 1: 001, 01.
        assert_eq!(bits.values, [0b010001, 0b010000]);
    }

    #[test]
    fn more_than_one_letter_can_say_is_an_error_and_writes_nothing() {
        let mut out = String::new();
        assert!(one_letter(&mut out, MOST).is_ok());
        assert_eq!(out, "\u{d7ff}");
        assert!(one_letter(&mut out, MOST + 1).is_err());
        assert_eq!(out, "\u{d7ff}");
    }

    #[test]
    fn a_number_is_one_letter_or_more_and_never_a_backslash() {
        let mut all = String::new();
        [0, 0x38, 0x39, 0x3fff, 0x4000].into_iter().for_each(|value| number(&mut all, value));
        // 0x4000: the low digit nothing and more to come, then one.
        assert_eq!(all, "#[]\u{4023}\u{4024}$");
        let first: String = (0..0x8000).map(letter).collect();
        assert!(!first.contains(['\\', '"', '\n', '\r', char::REPLACEMENT_CHARACTER]));
        assert!(first.chars().all(|letter| letter.len_utf16() == 1));
    }
}
