//! Bytes and bits of the exported index: whole numbers, texts, and lists of entries.
//! Never knows what they mean.

/// Appends a whole number, seven bits a byte, the lowest first.
pub fn number(bytes: &mut Vec<u8>, mut number: usize) {
    while number >= 0x80 {
        bytes.push((number & 0x7f) as u8 | 0x80);
        number >>= 7;
    }
    bytes.push(number as u8);
}

/// Appends a text: its length in bytes, then UTF-8.
pub fn text(bytes: &mut Vec<u8>, text: &str) {
    number(bytes, text.len());
    bytes.extend_from_slice(text.as_bytes());
}

/// Appends 32-bit floating point numbers, the lowest byte first.
pub fn floats(bytes: &mut Vec<u8>, floats: &[f32]) {
    floats.iter().for_each(|float| bytes.extend(float.to_le_bytes()));
}

/// Bits, the highest of each byte first.
#[derive(Default)]
pub struct Bits {
    bytes: Vec<u8>,
    used: usize,
}

impl Bits {
    fn push(&mut self, value: usize, width: usize) {
        for at in (0..width).rev() {
            if self.used.is_multiple_of(8) {
                self.bytes.push(0);
            }
            let bit = (value >> at & 1) as u8;
            if let Some(last) = self.bytes.last_mut() {
                *last |= bit << (7 - self.used % 8);
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

    /// The bytes so far, the last one filled with zeros.
    pub fn into_bytes(self) -> Vec<u8> {
        self.bytes
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
        assert_eq!(bits.into_bytes(), [0b0111_0010]);
        let mut bits = Bits::default();
        bits.list(&[9], 16);
        // Length 1: gamma(2) = 010. Two low bits: 2 << 2 <= 11. Step 9 = 2 * 4 + 1: 001, 01.
        assert_eq!(bits.into_bytes(), [0b0100_0101]);
        let mut all = Vec::new();
        number(&mut all, 300);
        assert_eq!(all, [0b1010_1100, 0b10]);
    }
}
