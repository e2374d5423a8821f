//! What money of a later year is worth today.
//!
//! Start at [`Terms`].

/// The years that are looked at, and what later money is worth.
///
/// Amounts are in money of today's worth (real), as 10 CFR 436 Subpart A and NIST Handbook 135 have it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Terms {
    /// Years, 1 or more.
    pub years: usize,
    /// Real discount rate, share a year, above −1.
    pub discount_rate: f64,
    /// Inflation, share a year, above −1: what a payment fixed in money loses each year.
    pub inflation: f64,
}

impl Terms {
    /// What 1 at the end of year `year` is worth today; year 0 is today.
    ///
    /// ```
    /// use winterledger::economics::Terms;
    /// let terms = Terms { years: 20, discount_rate: 0.03, inflation: 0.025 };
    /// assert!((terms.worth(1) - 1.0 / 1.03).abs() < 1e-15);
    /// ```
    pub fn worth(&self, year: usize) -> f64 {
        (1.0 + self.discount_rate).powf(-(year as f64))
    }

    /// What 1 at the end of each year is worth today, if it is `escalation` (share a year) more each
    /// year, the first year's included: `Σ ((1 + e)/(1 + d))^t` (the UPV* of NIST Handbook 135).
    ///
    /// ```
    /// use winterledger::economics::Terms;
    /// let terms = Terms { years: 15, discount_rate: 0.03, inflation: 0.0 };
    /// assert!((terms.worth_of_years(0.03) - 15.0).abs() < 1e-12); // exact: each term is 1
    /// ```
    pub fn worth_of_years(&self, escalation: f64) -> f64 {
        (1..=self.years).map(|year| escalated(escalation, year) * self.worth(year)).sum()
    }

    /// What 1 of the money of that year's end buys in money of today's worth.
    pub fn deflated(&self, year: usize) -> f64 {
        (1.0 + self.inflation).powf(-(year as f64))
    }
}

/// How many times today's price a price is in year `year` (1 is the first), escalated once in the first.
pub fn escalated(escalation: f64, year: usize) -> f64 {
    (1.0 + escalation).powf(year as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published: NIST Handbook 135, uniform present value factors at 3 % (from memory to 3 decimals).
    #[test]
    fn present_worth_of_equal_years() {
        let published = [(5, 4.580), (10, 8.530), (15, 11.938), (20, 14.877), (25, 17.413), (30, 19.600)];
        for (years, factor) in published {
            let terms = Terms { years, discount_rate: 0.03, inflation: 0.0 };
            assert!((terms.worth_of_years(0.0) - factor).abs() <= 0.0005, "{years}");
        }
    }

    /// Hand-worked: a = 1.01/1.03, a·(1 − a¹⁵)/(1 − a) = 12.8683.
    #[test]
    fn present_worth_of_years_that_grow_dearer() {
        let terms = Terms { years: 15, discount_rate: 0.03, inflation: 0.0 };
        assert!((terms.worth_of_years(0.01) - 12.8683).abs() < 5e-5);
    }
}
