//! A small seeded generator, so that every case can be run again from its number alone.

/// The SplitMix64 generator (Steele, Lea and Flood, OOPSLA 2014).
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    /// Starts from a seed. Neighbouring seeds give unrelated streams.
    pub fn new(seed: u64) -> Self {
        let mut random = Self(seed ^ 0x5851_f42d_4c95_7f2d);
        random.bits();
        random
    }

    /// A stream of its own, which leaves this one where it is: what is drawn from it changes no earlier case.
    pub fn apart(&self) -> Self {
        Self::new(self.0 ^ 0x2545_f491_4f6c_dd1d)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number from 0 up to, but not including, `end`.
    pub fn below(&mut self, end: usize) -> usize {
        (self.bits() % end.max(1) as u64) as usize
    }

    /// A whole number between two, both included.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        self.wide(i128::from(low), i128::from(high)) as i64
    }

    /// A whole number between two, both included.
    pub fn wide(&mut self, low: i128, high: i128) -> i128 {
        let width = (high - low) as u128 + 1;
        let bits = (u128::from(self.bits()) << 64) | u128::from(self.bits());
        low + (bits % width) as i128
    }

    /// True in `percent` of all cases.
    pub fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    /// One of these.
    pub fn pick<'t, T>(&mut self, of: &'t [T]) -> &'t T {
        &of[self.below(of.len())]
    }

    /// A random place in a list, by weight.
    pub fn weighted(&mut self, weights: &[usize]) -> usize {
        let mut left = self.below(weights.iter().sum());
        for (place, weight) in weights.iter().enumerate() {
            match left.checked_sub(*weight) {
                Some(rest) => left = rest,
                None => return place,
            }
        }
        0
    }

    /// A direction: a vector of length about one.
    pub fn direction(&mut self) -> (f64, f64) {
        let angle = self.between(0, 6_283_185) as f64 / 1e6;
        (libm::cos(angle), libm::sin(angle))
    }
}
