//! Where random bytes come from: handed in, so that nothing here needs a browser, and a test can fix
//! them.

/// A source of random bytes that nobody can foretell.
pub trait Random {
    /// Fills all of `bytes`.
    fn fill(&mut self, bytes: &mut [u8]);

    /// As many random bytes as are asked for.
    fn draw<const N: usize>(&mut self) -> [u8; N] {
        let mut bytes = [0; N];
        self.fill(&mut bytes);
        bytes
    }
}

/// For tests: bytes that follow from a seed, and never the same twice in a row.
#[cfg(test)]
pub(crate) struct Counted(pub(crate) u64);

#[cfg(test)]
impl Random for Counted {
    fn fill(&mut self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(32) {
            self.0 += 1;
            let block = <sha2::Sha256 as sha2::Digest>::digest(self.0.to_be_bytes());
            chunk.copy_from_slice(&block[..chunk.len()]);
        }
    }
}
