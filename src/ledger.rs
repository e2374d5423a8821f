//! Postings: everything that costs, one line each. Every total anywhere is a sum over them.
//!
//! Start at [`Ledger`].

use crate::fuel::{Fuel, FuelId};
use crate::simulation::EndUse;
use crate::supply::Supplied;
use crate::supply::cost::SupplyLine;
use crate::supply::meter::{Account, BillMonth};
use std::cmp::Ordering;

pub use crate::supply::reason::Reason;

/// Costs that differ by less than this are the same to the hundredth, in the job's currency.
pub const SAME_COST: f64 = 0.005;

/// One line of what an option costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posting {
    /// Month, 1 to 12; nothing where the weather has no months, and for what is counted, not paid.
    pub month: Option<u8>,
    /// What it is for.
    pub end_use: EndUse,
    /// The fuel it is for.
    pub fuel: FuelId,
    /// Whether it is on the fuel's meter for heating, at that meter's prices.
    pub heating_meter: bool,
    /// How much: selling units of the fuel, months for what is due each month, kW for demand, currency
    /// where the price is a share, else a count.
    pub quantity: f64,
    /// The price of one, in the job's currency; a share for tax and some riders.
    pub price: f64,
    /// What it comes to.
    pub amount: f64,
    /// Why it is there.
    pub reason: Reason,
}

/// The postings of one option through one year.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ledger {
    /// The postings, by month from January, fuel and use.
    pub postings: Vec<Posting>,
}

impl Ledger {
    /// Posts every line of every account, month by month.
    pub fn of(months: &[BillMonth], accounts: &[Account<'_>]) -> Self {
        let mut postings = Vec::new();
        for month in months {
            for account in accounts {
                postings.extend(account.lines(month).into_iter().map(|line| Posting {
                    month: month.month,
                    end_use: line.end_use,
                    fuel: account.price.fuel,
                    heating_meter: account.price.is_heating(),
                    quantity: line.quantity,
                    price: line.price,
                    amount: line.amount,
                    reason: line.reason,
                }));
            }
        }
        Self { postings }
    }

    /// The same with what the stores cost; what no month pays for comes last.
    #[must_use]
    pub fn with_stores<'a>(mut self, stores: impl Iterator<Item = (&'a Supplied, &'a Fuel)>) -> Self {
        for (supplied, fuel) in stores {
            let lines = supplied.lines.iter().map(|line| of_supply(line, supplied.store.fuel, fuel));
            match supplied.store.contract.budget_plan {
                true => self.postings.extend(lines.flat_map(in_twelve_parts)),
                false => self.postings.extend(lines),
            }
        }
        // The sort is stable, so that meters and uses keep their order.
        self.postings.sort_by_key(|p| (p.month.is_none(), p.month, p.fuel));
        self
    }

    /// The sum of all postings.
    pub fn total(&self) -> f64 {
        self.sum(|_| true)
    }

    /// The sum of the postings that `which` picks.
    pub fn sum(&self, which: impl Fn(&Posting) -> bool) -> f64 {
        self.postings.iter().filter(|p| which(p)).map(|p| p.amount).sum()
    }

    /// How much of a fuel was used, in its selling unit; of a stored one, what was delivered and taken
    /// out of the store.
    pub fn quantity(&self, fuel: FuelId) -> f64 {
        let used = self.postings.iter().filter(|p| p.fuel == fuel && p.reason.is_energy());
        used.map(|p| p.quantity).sum()
    }

    /// The bills as suppliers write them: postings of one month, fuel, meter and reason are one line.
    /// Months come in order, and within them fuels, meters and reasons.
    pub fn bills(&self) -> Vec<LineOfBill> {
        let mut lines: Vec<LineOfBill> = Vec::new();
        for posting in &self.postings {
            match lines.iter_mut().rev().find(|line| line.is_same(posting)) {
                Some(line) => line.add(posting),
                None => lines.push(LineOfBill { whole: *posting, by_use: vec![*posting] }),
            }
        }
        let order = |line: &LineOfBill| (line.whole.month, line.whole.fuel, line.whole.heating_meter);
        lines.sort_by(|a, b| {
            let reasons = a.whole.reason.partial_cmp(&b.whole.reason);
            order(a).cmp(&order(b)).then(reasons.unwrap_or(Ordering::Equal))
        });
        lines
    }
}

/// What is paid in a month as twelve equal parts, one a month.
fn in_twelve_parts(whole: Posting) -> Vec<Posting> {
    let Some(_) = whole.month else { return vec![whole] };
    let (quantity, amount) = (whole.quantity / 12.0, whole.amount / 12.0);
    (1..=12).map(|month| Posting { month: Some(month), quantity, amount, ..whole }).collect()
}

fn of_supply(line: &SupplyLine, id: FuelId, fuel: &Fuel) -> Posting {
    let units = if line.charge.is_fuel() { fuel.kwh_per_unit } else { 1.0 };
    Posting {
        month: line.month,
        end_use: line.end_use,
        fuel: id,
        heating_meter: false,
        quantity: line.quantity / units,
        price: line.price * units,
        amount: line.amount(),
        reason: Reason::Store(line.charge),
    }
}

/// One line of a bill: the postings of all uses that share it.
#[derive(Debug, Clone, PartialEq)]
pub struct LineOfBill {
    /// All of it; its use is that of the first posting.
    pub whole: Posting,
    /// Its parts, one a use.
    pub by_use: Vec<Posting>,
}

impl LineOfBill {
    fn is_same(&self, p: &Posting) -> bool {
        let key = |p: &Posting| (p.month, p.fuel, p.heating_meter, p.reason);
        // Two trucks of one month come at two prices.
        let one_price = !matches!(p.reason, Reason::Store(_)) || self.whole.price == p.price;
        key(&self.whole) == key(p) && one_price
    }

    fn add(&mut self, posting: &Posting) {
        self.whole.quantity += posting.quantity;
        self.whole.amount += posting.amount;
        self.by_use.push(*posting);
    }

    /// What of it is charged to heating.
    pub fn heating(&self) -> f64 {
        self.by_use.iter().filter(|p| p.end_use.is_heating()).map(|p| p.amount).sum()
    }
}
