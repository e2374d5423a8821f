//! One option set against another: net savings, savings for each unit invested, payback.
//!
//! NIST Handbook 135; 10 CFR 436 Subpart A. Start at [`Against::new`].

use super::life_cycle::LifeCycle;
use super::terms::Terms;

/// When the dearer option has paid for itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Payback {
    /// It costs no more from the first.
    AtOnce,
    /// After so many years.
    Years(f64),
    /// Not within the years that are looked at.
    Never,
    /// It had, as while a loan puts off its cost, but at the end of the years it has cost more again.
    TakenBack,
}

/// An option against a base.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Against {
    /// Life-cycle cost of the base less that of the option.
    pub net_savings: f64,
    /// Savings in bills and upkeep for each unit more invested; nothing where no more is invested.
    pub savings_to_investment: Option<f64>,
    /// Adjusted internal rate of return, share a year; nothing where the ratio is missing or negative.
    pub adjusted_return: Option<f64>,
    /// Payback of what is spent, not discounted.
    pub simple_payback: Payback,
    /// Payback with later money discounted.
    pub discounted_payback: Payback,
}

impl Against {
    /// Sets `option` against `base` on the same terms.
    ///
    /// `AIRR = (1 + d)·SIR^(1/n) − 1`. Payback is the first moment at which the option has cost no
    /// more than the base, on a straight line within its year.
    pub fn new(option: &LifeCycle, base: &LifeCycle, terms: &Terms) -> Self {
        let invested = option.investment() - base.investment();
        let saved = (base.bills + base.upkeep) - (option.bills + option.upkeep);
        let ratio = (invested > 0.0).then(|| saved / invested);
        let airr = |ratio: f64| (1.0 + terms.discount_rate) * ratio.powf(1.0 / terms.years as f64) - 1.0;
        Self {
            net_savings: base.total() - option.total(),
            savings_to_investment: ratio,
            adjusted_return: ratio.filter(|r| *r >= 0.0).map(airr),
            simple_payback: payback(&option.spent_by, &base.spent_by, |_| 1.0),
            discounted_payback: payback(&option.spent_by, &base.spent_by, |year| terms.worth(year)),
        }
    }
}

/// The first moment at which `option` has cost no more than `base`, if it is not dearer again in the end;
/// `worth` weighs each year's money.
fn payback(option: &[f64], base: &[f64], worth: impl Fn(usize) -> f64) -> Payback {
    let more: Vec<f64> = option.iter().zip(base).map(|(o, b)| o - b).collect();
    let Some(&first) = more.first() else { return Payback::Never };
    if first <= 0.0 {
        return Payback::AtOnce;
    }
    let (mut open, mut paid) = (first, None);
    for (year, pair) in (1..).zip(more.windows(2)) {
        let [before, after] = pair else { continue };
        let saved = (before - after) * worth(year);
        if paid.is_none() && open <= saved {
            paid = Some((year - 1) as f64 + open / saved);
        }
        open -= saved;
    }
    match paid {
        Some(_) if open > 1e-6 => Payback::TakenBack,
        Some(years) => Payback::Years(years),
        None => Payback::Never,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::economics::life_cycle::{Costs, life_cycle};

    fn of(installed: f64, yearly: f64, terms: &Terms) -> LifeCycle {
        life_cycle(&Costs { installed, yearly: vec![(yearly, 0.0)], ..Costs::default() }, terms)
    }

    /// Hand-worked: 5,000 more to save 800 a year for 20 years at 3 %. UPV 14.877475; savings
    /// 11,901.98; net 6,901.98; SIR 2.380396; AIRR 1.03·2.380396^(1/20) − 1 = 7.5647 %. Simple payback
    /// 6.25 years. Discounted: 800·5.417191 = 4,333.753 after 6 years, then 666.247 of the 650.473 of
    /// year 7 are missing: after 7 years 15.774 are open of 631.527 of year 8: 7.02498 years.
    #[test]
    fn measures_of_a_hand_worked_pair() {
        let terms = Terms { years: 20, discount_rate: 0.03, inflation: 0.0 };
        let against = Against::new(&of(9000.0, 1200.0, &terms), &of(4000.0, 2000.0, &terms), &terms);
        assert!((against.net_savings - 6901.98).abs() < 0.005, "{against:?}");
        assert!((against.savings_to_investment.unwrap() - 2.380_396).abs() < 5e-7);
        assert!((against.adjusted_return.unwrap() - 0.075_647).abs() < 5e-7, "{against:?}");
        assert_eq!(against.simple_payback, Payback::Years(6.25));
        let Payback::Years(years) = against.discounted_payback else { panic!("{against:?}") };
        assert!((years - 7.024_98).abs() < 5e-6, "{years}");
    }

    /// Hand-worked: nothing more invested; and 5,000 more that save 100 a year never come back in 20.
    #[test]
    fn what_costs_no_more_pays_at_once_and_what_saves_little_never() {
        let terms = Terms { years: 20, discount_rate: 0.03, inflation: 0.0 };
        let base = of(4000.0, 2000.0, &terms);
        let cheaper = Against::new(&of(4000.0, 1900.0, &terms), &base, &terms);
        assert_eq!((cheaper.simple_payback, cheaper.savings_to_investment), (Payback::AtOnce, None));
        let little = Against::new(&of(9000.0, 1900.0, &terms), &base, &terms);
        assert_eq!((little.simple_payback, little.discounted_payback), (Payback::Never, Payback::Never));
    }

    /// Hand-worked: 1,000 more at first, 400 a year less until year 3, then 400 a year more: even after 2.5 years,
    /// 200 ahead after 3, 600 behind after 5.
    #[test]
    fn what_is_dearer_again_in_the_end_has_not_paid_back() {
        let option = [1000.0, 1000.0, 1000.0, 1000.0, 1800.0, 2600.0];
        let base = [0.0, 400.0, 800.0, 1200.0, 1600.0, 2000.0];
        assert_eq!(payback(&option, &base, |_| 1.0), Payback::TakenBack);
        assert_eq!(payback(&option[..4], &base[..4], |_| 1.0), Payback::Years(2.5));
    }
}
