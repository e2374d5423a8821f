//! The keys of orders, price and fees into a [`Contract`]; and the whole store.
//!
//! Start at `Builder::store`.

use super::builder::Builder;
use crate::fuel::FuelId;
use crate::job::{LeftOverWord, OrdersWord, OwnerWord, PlanWord, PriceDayWord, PriceText, Typed};
use crate::supply::contract::{Contract, Fees, LeftOver, Orders, PriceDay, PricePlan};
use crate::supply::store::Store;
use crate::supply::tank::Tank;

impl Builder<'_, '_> {
    pub(super) fn store(&mut self, fuel: FuelId) -> Option<Store> {
        let tank = self.tank()?;
        let contract = self.contract(&tank)?;
        let (level, full) = (self.section.tank.start_level.as_deref().copied(), tank.fill_limit.to_string());
        let level =
            self.given(level, "start_level", tank.fill_limit, &full, "the year begins with a full store");
        self.within(level, "start_level", &tank);
        self.within(tank.share(contract.reorder_kwh), "reorder_level", &tank);
        if contract.minimum_drop_kwh > tank.usable_kwh() {
            self.too_small(&tank);
        }
        let start_kwh = level * tank.capacity_kwh;
        let name = self.section.name.value.clone();
        self.problems.is_empty().then_some(Store { name, fuel, tank, contract, start_kwh })
    }

    fn contract(&mut self, tank: &Tank) -> Option<Contract> {
        let section = self.section;
        let orders = self.orders();
        let automatic = matches!(orders, Orders::Automatic { .. });
        let level = section.reorder_level.as_deref().copied();
        let level = self.given(level, "reorder_level", 0.3, "0.30", "orders are placed at 25 to 30 %");
        let lead = section.lead_days.as_deref().copied();
        let (days, cold_days) = orders.usual_lead_days();
        let why = "in ordinary weather; a cold snap can take weeks";
        let lead = self.given(lead, "lead_days", days as f64, &days.to_string(), why) as usize;
        let cold = section.cold_lead_days.as_deref().copied();
        let why = "in the coldest ten days of an ordinary winter, a judgement; for drawn winters alone";
        // Nobody comes sooner in the cold.
        let cold_days = cold_days.max(lead);
        let cold = self.given(cold, "cold_lead_days", cold_days as f64, &cold_days.to_string(), why) as usize;
        let price_day = section.plan.price_day.as_deref().map(|word| match word {
            PriceDayWord::Order => PriceDay::Order,
            PriceDayWord::Delivery => PriceDay::Delivery,
        });
        let price_day = match automatic {
            true => {
                self.given(price_day, "price_day", PriceDay::Delivery, "delivery", "of automatic delivery")
            }
            false => self.given(price_day, "price_day", PriceDay::Order, "order", "of orders by the house"),
        };
        let relight = section.fees.relight_days.as_deref().copied();
        let why = "after a run-out a leak test comes before relighting, and its appointment takes a day";
        let relight = self.given(relight, "relight_days", 1.0, "1", why);
        let minimum = self.optional_kwh(section.fees.minimum_drop.as_ref(), "minimum_drop")?;
        let last_year_kwh = self.optional_kwh(section.plan.last_year_use.as_ref(), "last_year_use")?;
        Some(Contract {
            orders,
            reorder_kwh: level * tank.capacity_kwh,
            lead_days: lead,
            cold_lead_days: cold,
            cold_lead_stated: section.cold_lead_days.is_some(),
            leased: section.tank.owner.as_deref() == Some(&OwnerWord::Supplier),
            price: self.price()?,
            price_day,
            fees: self.fees()?,
            minimum_drop_kwh: minimum.unwrap_or_default(),
            emergency_days: section.fees.emergency_days.as_deref().map(|days| *days as usize),
            relight_days: relight as usize,
            last_year_kwh,
            budget_plan: section.plan.budget_plan.as_deref() == Some(&true),
        })
    }

    fn orders(&mut self) -> Orders {
        let section = self.section;
        match (*section.orders, &section.summer_fill_day) {
            (OrdersWord::SummerFill, Some(day)) => Orders::SummerFill { on: day.value },
            (OrdersWord::WillCall | OrdersWord::SummerFill, _) => Orders::WillCall,
            (OrdersWord::Automatic, _) => {
                let error = section.forecast_error.as_deref().copied();
                let why = "a supplier that counts degree-days misses some of the use";
                let forecast_error = self.given(error, "forecast_error", 0.1, "0.10", why);
                let guarantee = section.run_out_guarantee.as_deref().copied();
                let why = "who runs dry pays, unless the contract says otherwise";
                let guarantee = self.given(guarantee, "run_out_guarantee", false, "false", why);
                Orders::Automatic { forecast_error, guarantee }
            }
        }
    }

    fn price(&mut self) -> Option<PricePlan> {
        let plan = &self.section.plan;
        let word = plan.price_plan.as_deref().copied();
        let word = self.given(word, "price_plan", PlanWord::Market, "market", "the price of the day");
        let (Some(price), PlanWord::Fixed | PlanWord::Cap | PlanWord::PreBuy) = (&plan.plan_price, word)
        else {
            return Some(PricePlan::Market);
        };
        let per_kwh = self.per_kwh(price, "plan_price")?;
        Some(match (word, &plan.plan_amount, plan.left_over.as_deref()) {
            (PlanWord::Cap, ..) => PricePlan::Cap(per_kwh),
            (PlanWord::PreBuy, Some(amount), Some(left_over)) => PricePlan::PreBuy {
                per_kwh,
                kwh: self.kwh(amount, "plan_amount")?,
                left_over: match left_over {
                    LeftOverWord::Refund => LeftOver::Refund,
                    LeftOverWord::Carry => LeftOver::Carry,
                    LeftOverWord::Lose => LeftOver::Lose,
                },
            },
            _ => PricePlan::Fixed(per_kwh),
        })
    }

    fn fees(&mut self) -> Option<Fees> {
        let fees = &self.section.fees;
        let leased = self.section.tank.owner.as_deref() == Some(&OwnerWord::Supplier);
        if self.section.tank.owner.is_none() {
            self.given(None, "owner", OwnerWord::House, "house", "the job gives no rent");
        }
        self.rent_once();
        let none = "the job gives none, so none is counted";
        let currency = &self.job.job.currency.value;
        let mut fee = |given: &Option<Typed<PriceText>>, key: &str, per: &str| {
            let written = format!("0 {currency}/{per}");
            self.given(given.as_ref().map(|fee| fee.amount), key, 0.0, &written, none)
        };
        let drop = fee(&fees.delivery_fee, "delivery_fee", "drop");
        let leak_test = fee(&fees.leak_test_fee, "leak_test_fee", "test");
        let rent = if leased { fee(&fees.rent, "rent", "year") } else { 0.0 };
        let plain = |given: &Option<Typed<PriceText>>| given.as_ref().map_or(0.0, |fee| fee.amount);
        let years = fees.tank_years.as_deref().copied();
        let once = plain(&fees.set_and_pick_up_fee);
        let years = match fees.set_and_pick_up_fee {
            Some(_) => self.given(years, "tank_years", 10.0, "10", "years that a tank stays, a judgement"),
            None => 1.0,
        };
        let (plan_per_kwh, plan_a_year) = self.plan_fee()?;
        let low_use = match &fees.low_use {
            Some((below, fee)) => Some((self.kwh(below, "low_use_below")?, fee.amount)),
            None => None,
        };
        Some(Fees {
            plan_per_kwh,
            plan_a_year,
            drop,
            small_drop: fees.small_drop_fee.as_ref().map(|fee| fee.amount),
            emergency: plain(&fees.emergency_fee),
            leak_test,
            low_use,
            rent,
            set_and_pick_up: (once, years),
        })
    }

    /// Rent belongs to the tank; the fuel's price may say it where there is no tank, but not beside one.
    fn rent_once(&mut self) {
        let of_fuel = self.job.prices.fuel(&self.fuel.id).is_some_and(|price| price.rent.is_some());
        if let (Some(rent), true) = (&self.section.fees.rent, of_fuel) {
            let what = format!("rent is due here and in prices.{} too", self.fuel.id);
            let problem = self.job.problem(&rent.span, self.key("rent"), what);
            self.problems.push(problem.help("Take one of the two out"));
        }
    }

    /// The fee of the price plan: by the kWh, and by the year.
    fn plan_fee(&mut self) -> Option<(f64, f64)> {
        match &self.section.plan.plan_fee {
            None => Some((0.0, 0.0)),
            Some(fee) if matches!(fee.per.as_str(), "year" | "yr") => Some((0.0, fee.amount)),
            Some(fee) => self.per_kwh(fee, "plan_fee").map(|per_kwh| (per_kwh, 0.0)),
        }
    }
}
