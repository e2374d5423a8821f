//! A seed and a key into a row of numbers that look drawn by chance, always the same ones.
//!
//! ChaCha with 8 rounds, used as a counter: the same on every platform, and what one key gives hangs on
//! no other. Takes nothing from the environment. Start at [`Chance`].

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Half the distance between two neighbours of the 2⁵³ numbers that [`Chance::share`] gives.
const HALF_STEP: f64 = 1.0 / 18_014_398_509_481_984.0;

/// One stream of numbers.
#[derive(Debug)]
pub struct Chance(ChaCha8Rng);

impl Chance {
    /// The stream of that number; streams of one seed share nothing.
    pub fn new(seed: u64, stream: u64) -> Self {
        let mut generator = ChaCha8Rng::seed_from_u64(seed);
        generator.set_stream(stream);
        Self(generator)
    }

    /// The stream of one factor (price, queue, ...) of one draw on one date; streams share nothing, so
    /// that one draw more, or one order more within a draw, changes no other number.
    pub fn keyed(seed: u64, draw: u64, factor: u64, date: u64) -> Self {
        let mut key = [0; 32];
        for (place, part) in key.chunks_exact_mut(8).zip([seed, draw, factor]) {
            place.copy_from_slice(&part.to_le_bytes());
        }
        let mut generator = ChaCha8Rng::from_seed(key);
        generator.set_stream(date);
        Self(generator)
    }

    /// Between 0 and 1, neither of them, all parts equally likely.
    pub fn share(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 * 2.0 + 1.0) * HALF_STEP
    }

    /// Of the normal distribution with mean 0 and standard deviation 1.
    ///
    /// Source: G. E. P. Box and M. E. Muller, "A note on the generation of random normal deviates",
    /// Annals of Mathematical Statistics 29 (1958).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.share().ln()).sqrt();
        radius * (std::f64::consts::TAU * self.share()).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_seed_and_stream_give_the_same_numbers_and_others_do_not() {
        let row = |seed, stream| {
            let mut chance = Chance::new(seed, stream);
            (0..4).map(|_| chance.share()).collect::<Vec<_>>()
        };
        assert_eq!(row(1, 0), row(1, 0));
        assert_ne!(row(1, 0), row(1, 1));
        assert_ne!(row(1, 0), row(2, 0));
    }

    #[test]
    fn every_part_of_a_key_makes_another_stream() {
        let keys = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]];
        let first = |key: [u64; 4]| Chance::keyed(key[0], key[1], key[2], key[3]).share();
        let firsts = keys.map(first);
        assert_eq!(firsts, keys.map(first));
        for (i, one) in firsts.iter().enumerate() {
            assert!(firsts.iter().skip(i + 1).all(|other| other != one), "{firsts:?}");
        }
    }

    #[test]
    fn normal_numbers_have_mean_0_and_deviation_1() {
        let mut chance = Chance::new(7, 0);
        let values: Vec<f64> = (0..20_000).map(|_| chance.normal()).collect();
        let mean = values.iter().sum::<f64>() / 20_000.0;
        let square = values.iter().map(|v| v * v).sum::<f64>() / 20_000.0;
        // Five standard errors: 1/√20000 = 0.0071 of the mean, √2 times that of the square.
        assert!(mean.abs() < 0.036 && (square - 1.0).abs() < 0.05, "{mean} {square}");
    }
}
