//! One number or several side by side, with only the operations that the hour kernel needs.
//!
//! The kernel is written once over [`Lane`]: `f64` is what hours, bins and worked examples use,
//! [`Lanes`] runs several houses or draws at once and gives the same bits. Nothing here knows what
//! the numbers mean. Start at [`Lane`].

use std::array::from_fn;
use std::ops::{Add, Div, Mul, Sub};

/// A number that the kernel can compute with: + − × ÷, least, greatest and choice.
pub trait Lane:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self>
{
    /// The same value in every lane.
    fn splat(value: f64) -> Self;

    /// The lesser; of equal values either.
    fn least(self, other: Self) -> Self;

    /// The greater; of equal values either.
    fn greatest(self, other: Self) -> Self;

    /// `yes` where `self < other`, else `no`.
    fn less_select(self, other: Self, yes: Self, no: Self) -> Self;

    /// Whether any lane is above `limit`; only to leave out work whose result is known to be nothing.
    fn any_above(self, limit: f64) -> bool;
}

impl Lane for f64 {
    #[inline(always)]
    fn splat(value: f64) -> Self {
        value
    }

    #[inline(always)]
    fn least(self, other: Self) -> Self {
        if self < other { self } else { other }
    }

    #[inline(always)]
    fn greatest(self, other: Self) -> Self {
        if self > other { self } else { other }
    }

    #[inline(always)]
    fn less_select(self, other: Self, yes: Self, no: Self) -> Self {
        if self < other { yes } else { no }
    }

    #[inline(always)]
    fn any_above(self, limit: f64) -> bool {
        self > limit
    }
}

/// `N` numbers side by side.
///
/// ```
/// use winterledger::lane::{Lane, Lanes};
/// let pair = Lanes([1.0, 5.0]).least(Lanes::splat(2.0));
/// assert_eq!(pair, Lanes([1.0, 2.0]));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lanes<const N: usize>(pub [f64; N]);

impl<const N: usize> Lanes<N> {
    #[inline(always)]
    fn zip(self, other: Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self(from_fn(|i| f(self.0[i], other.0[i])))
    }
}

macro_rules! elementwise {
    ($($trait:ident $method:ident $op:tt),+) => {$(
        impl<const N: usize> $trait for Lanes<N> {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                self.zip(other, |a, b| a $op b)
            }
        }
    )+};
}

elementwise!(Add add +, Sub sub -, Mul mul *, Div div /);

impl<const N: usize> Lane for Lanes<N> {
    #[inline(always)]
    fn splat(value: f64) -> Self {
        Self([value; N])
    }

    #[inline(always)]
    fn least(self, other: Self) -> Self {
        self.zip(other, Lane::least)
    }

    #[inline(always)]
    fn greatest(self, other: Self) -> Self {
        self.zip(other, Lane::greatest)
    }

    #[inline(always)]
    fn less_select(self, other: Self, yes: Self, no: Self) -> Self {
        Self(from_fn(|i| if self.0[i] < other.0[i] { yes.0[i] } else { no.0[i] }))
    }

    #[inline(always)]
    fn any_above(self, limit: f64) -> bool {
        self.0.iter().any(|value| *value > limit)
    }
}
