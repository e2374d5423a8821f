//! Seeded numbers for made-up cases: the same seed gives the same case for ever.
//!
//! SplitMix64, a published counter-based mixer; enough for test cases, for nothing else. Start at
//! [`Dice`].

pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From `low` up to `high`.
    pub(crate) fn real(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// True so often.
    pub(crate) fn chance(&mut self, probability: f64) -> bool {
        self.real(0.0, 1.0) < probability
    }

    /// One of so many.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }
}
