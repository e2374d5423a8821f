//! `Hourly<T>`: one value an hour, whole days only, and its sums by day.
//!
//! Holds values in the order they were given and knows nothing of what they mean. Start at
//! [`Hourly`].

use std::ops::Deref;

/// One value for each hour of a run of whole days.
///
/// ```
/// use winterledger::series::Hourly;
/// let day = Hourly::new(vec![2.0; 24]).unwrap();
/// assert_eq!(day.daily_sums(), [48.0]);
/// assert!(Hourly::new(vec![1.0; 23]).is_none());
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Hourly<T>(Vec<T>);

impl<T> Hourly<T> {
    /// Takes the values, or `None` if they are no whole number of days.
    pub fn new(values: Vec<T>) -> Option<Self> {
        (!values.is_empty() && values.len().is_multiple_of(24)).then_some(Self(values))
    }

    /// The values by day, 24 each.
    pub fn days(&self) -> impl Iterator<Item = &[T]> {
        self.0.chunks_exact(24)
    }

    /// The same hours, beginning at hour `start` and wrapping at the end.
    #[must_use]
    pub fn rotated(mut self, start: usize) -> Self {
        let length = self.0.len();
        self.0.rotate_left(start % length);
        self
    }
}

impl Hourly<f64> {
    /// Every value changed by the same rule.
    #[must_use]
    pub fn map(mut self, change: impl Fn(f64) -> f64) -> Self {
        self.0.iter_mut().for_each(|value| *value = change(*value));
        self
    }

    /// Every value joined with the one of the same hour of `other`; hours beyond `other` stay.
    #[must_use]
    pub fn zip_map(mut self, other: &Self, mut join: impl FnMut(f64, f64) -> f64) -> Self {
        self.0.iter_mut().zip(&other.0).for_each(|(value, other)| *value = join(*value, *other));
        self
    }

    /// The sum of each day.
    pub fn daily_sums(&self) -> Vec<f64> {
        self.days().map(|day| day.iter().sum()).collect()
    }

    /// The mean of all hours.
    pub fn mean(&self) -> f64 {
        self.0.iter().sum::<f64>() / self.0.len() as f64
    }
}

impl<T> Deref for Hourly<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.0
    }
}
