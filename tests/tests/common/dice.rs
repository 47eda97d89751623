//! Numbers that look random and are the same in every run.

/// The generator SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
pub struct Dice(u64);

impl Dice {
    /// From a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 53 bits: as many as a float holds.
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^= bits >> 31;
        bits >> 11
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() as f64 / (1_u64 << 53) as f64)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn whole(&mut self, low: i64, high: i64) -> i64 {
        low + (self.bits() % (high - low + 1) as u64) as i64
    }
}
