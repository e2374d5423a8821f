//! A loan with equal monthly payments.
//!
//! Start at [`Loan`].

use super::terms::Terms;

/// A loan paid back in equal months, the first a month from today.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loan {
    /// What is lent.
    pub amount: f64,
    /// Nominal interest, share a year; 0 or more. A twelfth is due each month.
    pub yearly_rate: f64,
    /// Months, 1 or more.
    pub months: usize,
}

impl Loan {
    /// What is due each month, in money of that month.
    ///
    /// ```
    /// use winterledger::economics::Loan;
    /// let loan = Loan { amount: 10_000.0, yearly_rate: 0.06, months: 60 };
    /// assert!((loan.monthly_payment() - 193.328).abs() < 5e-4); // hand-worked annuity
    /// ```
    pub fn monthly_payment(&self) -> f64 {
        let months = self.months as f64;
        let rate = self.yearly_rate / 12.0;
        if rate == 0.0 {
            return self.amount / months;
        }
        // exp and ln keep the digits that 1 − (1 + r)^−n loses at small rates.
        self.amount * rate / -(-months * rate.ln_1p()).exp_m1()
    }

    /// What is paid in year `year` (1 is the first), in money of that year.
    pub fn paid_in(&self, year: usize) -> f64 {
        let before = year.saturating_sub(1).saturating_mul(12);
        self.months.saturating_sub(before).min(12) as f64 * self.monthly_payment()
    }

    /// What all payments are worth today: each year's summed at its end, deflated, discounted.
    ///
    /// Payments after the years that are looked at are owed all the same, so they count.
    pub fn worth(&self, terms: &Terms) -> f64 {
        let years = self.months.div_ceil(12);
        (1..=years).map(|year| self.paid_in(year) * terms.deflated(year) * terms.worth(year)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hand-worked: 12,000 at 7 % over 120 months; 12·139.3302 a year, at 1.03·1.025 − 1 a year.
    #[test]
    fn a_loan_is_deflated_and_then_discounted() {
        let loan = Loan { amount: 12_000.0, yearly_rate: 0.07, months: 120 };
        assert!((loan.monthly_payment() - 139.3302).abs() < 5e-5);
        let terms = Terms { years: 20, discount_rate: 0.03, inflation: 0.025 };
        assert!((loan.worth(&terms) - 12_557.41).abs() < 0.005);
    }

    /// Hand-worked: without interest, 1,500 in 15 months is 100 a month: 1,200, then 300.
    #[test]
    fn a_loan_without_interest_and_with_a_broken_year() {
        let loan = Loan { amount: 1500.0, yearly_rate: 0.0, months: 15 };
        let paid = [1, 2, 3].map(|year| loan.paid_in(year));
        assert_eq!((loan.monthly_payment(), paid), (100.0, [1200.0, 300.0, 0.0]));
    }
}
