//! What a bill or a supplier charges beside the price of energy, where it is far above what any asks; and a plan's price.
//!
//! Only remarks; each bound says where it comes from. Start at `charges`.

use super::doubt::Doubt;
use super::plausible::{CURRENCIES, RENT_A_MONTH, ordinary_at_retail};
use crate::fuel::{Fuel, FuelId, Fuels};
use crate::job::{FuelPriceSection, Job, PriceText, RiderAmount, SupplySection, Typed};

/// A rider on electricity, currency for a kWh: the delivery of dear regions comes to some 0.18 (from memory).
const RIDER_ELECTRICITY: f64 = 0.2;
/// The same on what is burned, currency for a kWh (HHV), 2.9 for a therm; a judgement, as pipes ask 0.3 to 1.2.
const RIDER_BURNED: f64 = 0.1;
/// For each kW of the month's largest hour, currency: houses pay 3 to 30 (from memory).
const DEMAND: f64 = 60.0;
/// For coming with fuel, currency a drop: 5 to 30, in haste to 150 (from memory); a judgement.
const DROP: f64 = 200.0;
/// The same where it must come in haste, on a Sunday or at night; a judgement.
const EMERGENCY: f64 = 500.0;
/// A leak test, currency: 75 to 300 (from memory); a judgement.
const TEST: f64 = 1_000.0;

/// Every such charge of the job.
pub(super) fn charges(job: &Job, fuels: &Fuels) -> Vec<Doubt> {
    if !CURRENCIES.contains(&job.job.currency.value.as_str()) {
        return Vec::new();
    }
    let fuel_of = |id: &str| fuels.find(id).and_then(|found| Some((found, fuels.get(found)?)));
    let mut found = Vec::new();
    for (id, prices) in &job.prices.fuels {
        found.extend(fuel_of(&id.value).into_iter().flat_map(|fuel| of_bill(prices, fuel)));
    }
    for supply in &job.supplies {
        found.extend(of_supplier(supply));
        found.extend(fuel_of(&supply.fuel.value).and_then(|(_, fuel)| odd_plan_price(supply, fuel)));
    }
    found
}

fn of_bill(prices: &FuelPriceSection, (id, fuel): (FuelId, &Fuel)) -> Vec<Doubt> {
    let riders = prices.rider.iter().filter_map(|rider| match &rider.amount {
        RiderAmount::Price(price) => {
            let kwh = fuel.kwh_per_unit * fuel.units_in(&price.per)?;
            let most = if id == FuelId::ELECTRICITY { RIDER_ELECTRICITY } else { RIDER_BURNED };
            dear(&format!("the rider \u{201c}{}\u{201d}", rider.name.value), &fuel.name, price, most * kwh)
        }
        RiderAmount::Share(_) => None,
    });
    let demand = prices.demand.as_ref().and_then(|price| dear("demand", &fuel.name, price, DEMAND));
    riders.chain(demand).collect()
}

fn of_supplier(supply: &SupplySection) -> Vec<Doubt> {
    let fees = &supply.fees;
    let held = [
        ("delivery_fee", &fees.delivery_fee, DROP),
        ("small_drop_fee", &fees.small_drop_fee, DROP),
        ("emergency_fee", &fees.emergency_fee, EMERGENCY),
        ("leak_test_fee", &fees.leak_test_fee, TEST),
        ("rent", &fees.rent, 12.0 * RENT_A_MONTH),
    ];
    let whose = &supply.name.value;
    held.into_iter().filter_map(|(key, fee, most)| dear(key, whose, fee.as_ref()?, most)).collect()
}

/// `most` is in the amount's own unit.
fn dear(key: &str, whose: &str, price: &Typed<PriceText>, most: f64) -> Option<Doubt> {
    (price.amount.abs() > most * (1.0 + 1e-9)).then(|| Doubt::DearCharge {
        key: key.to_owned(),
        whose: whose.to_owned(),
        amount: price.amount,
        most,
        per: price.per.clone(),
    })
}

fn odd_plan_price(supply: &SupplySection, fuel: &Fuel) -> Option<Doubt> {
    let price = supply.plan.plan_price.as_ref()?;
    let kwh = fuel.kwh_per_unit * fuel.units_in(&price.per)?;
    (!ordinary_at_retail(fuel).contains(&(price.amount / kwh))).then(|| Doubt::OddPlanPrice {
        store: supply.name.value.clone(),
        fuel: fuel.name.clone(),
        amount: price.amount,
        per: price.per.clone(),
    })
}
