//! Chance for tests. Never a clock: every run asks the same.

/// A small generator of our own (xorshift64*, Vigna 2016), from a seed that is not 0.
pub struct Dice(pub u64);

impl Dice {
    /// A number from 0, below `sides`.
    pub fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 33) as usize % sides
    }
}
