//! Numbers that look like chance and are the same every time.

/// Marsaglia's xorshift64 (J. Stat. Softw. 8, 14, 2003), from a state that is not 0.
pub struct Xorshift(pub u64);

impl Xorshift {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// 0 to `n` − 1.
    pub fn below(&mut self, n: u64) -> u64 {
        self.next() % n
    }

    /// In [0, 1).
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }
}
