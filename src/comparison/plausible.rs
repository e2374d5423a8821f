//! What can be true but seldom is: prices, loads and maps far from what houses ordinarily have.
//!
//! Only remarks; nothing is changed or refused. The bounds are this program's judgement, wide enough
//! that ordinary jobs are left alone. Start at `remarks`.

use super::note::Oddity;
use crate::equipment::map::MapRow;
use crate::equipment::{Machine, MachineKind};
use crate::fuel::{Fuel, FuelId, Fuels};
use crate::job::{DefrostAuxSection, Job, MachineSection, PriceSection};
use crate::prices::Prices;
use crate::simulation::design::{OptionDesign, ZoneDesign};
use crate::units::Quantity;
use std::ops::RangeInclusive;

/// Electricity, currency for a kWh, where the currency is a dollar, euro or pound.
const ELECTRICITY: RangeInclusive<f64> = 0.03..=1.0;
/// Fuel burned, currency for a kWh (HHV); for propane about $0.27 to $9.40 a gallon.
const BURNED: RangeInclusive<f64> = 0.01..=0.35;
/// Signs of currencies in which these prices are ordinary.
pub const CURRENCIES: [&str; 4] = ["$", "€", "£", "C$"];
/// Least that houses have paid for what is burned since about 2002, currency for a kWh (HHV); from memory, and a little
/// below it. Propane 0.80 a gallon of 26.80 kWh.
const LEAST_PROPANE: f64 = 0.80 / 26.80;
/// Heating oil and kerosene: 1.00 a gallon of 40.59 kWh.
const LEAST_OIL: f64 = 1.0 / 40.59;
/// Pellets: 100 a short ton of 4,836 kWh.
const LEAST_PELLETS: f64 = 100.0 / 4836.0;
/// A month's price over the median of the other months': propane and gas of winter have been twice to three times those
/// of summer (from memory), and a slipped point makes it ten times.
const MONTH: RangeInclusive<f64> = 0.25..=4.0;
/// What is due each month beside energy, currency: of houses 5 to 60 (from memory).
const FIXED_A_MONTH: f64 = 100.0;
/// Rent of a tank each month, currency: 30 to 250 a year (from memory).
pub(super) const RENT_A_MONTH: f64 = 30.0;
/// Design load for each m² of floor, kW: 3 to 60 Btu/h for each ft² (kW typed for kBtu/h are 3.4 times as much).
const LOAD_KW_M2: RangeInclusive<f64> = 0.00946..=0.1893;
/// Greatest output in the cold over that in mild weather. Of machines made for the cold, lists have 0.75 to 1.05 times
/// at 17 °F what they have at 47 °F (from memory); more is mostly the greatest against a rated one.
const RISE_INTO_COLD: f64 = 1.10;
/// Rows from here on up are of mild weather, °C (40 °F).
const MILD_C: f64 = 8.0 / 1.8;

/// What fuels ordinarily cost, in trade and at retail, currency for a kWh (HHV), where the currency is a dollar, euro or
/// pound.
pub fn ordinary_price(fuel: FuelId) -> RangeInclusive<f64> {
    if fuel == FuelId::ELECTRICITY { ELECTRICITY } else { BURNED }
}

/// The same of what houses pay.
pub(super) fn ordinary_at_retail(fuel: &Fuel) -> RangeInclusive<f64> {
    let least = match fuel.id.as_str() {
        "electricity" => return ELECTRICITY,
        "propane" => LEAST_PROPANE,
        "oil_no_1" | "oil_no_2" | "kerosene" => LEAST_OIL,
        "pellets" => LEAST_PELLETS,
        // Gas without its delivery, and wood from a neighbour, have been as cheap as any fuel in trade.
        _ => *BURNED.start(),
    };
    least..=*BURNED.end()
}

/// Odditys on prices, the design load and the machines' maps.
pub(super) fn remarks(job: &Job, prices: &Prices, fuels: &Fuels, machines: &[Machine]) -> Vec<Oddity> {
    let mut notes = odd_prices(job, prices, fuels);
    notes.extend(large_fees(job, prices, fuels));
    notes.extend(odd_load(job));
    notes.extend(machines.iter().filter_map(odd_map));
    notes
}

/// Heat pumps whose help while they defrost is not counted: ducted ones with strips or a furnace behind
/// them in the ducts where the job says none, and whatever stands behind them where it names a furnace that
/// is not there.
pub(super) fn defrosts_without_help(
    job: &Job,
    designs: &[OptionDesign],
    machines: &[Machine],
) -> Vec<Oddity> {
    let asks_furnace = |pump: &Machine| {
        let section = job.machine(&pump.name).map(|section| &section.kind.value);
        matches!(section, Some(MachineSection::HeatPump(pump))
            if pump.defrost.aux.as_deref() == Some(&DefrostAuxSection::Furnace))
    };
    let is_by_air = |m: &&Machine| m.kind == MachineKind::HeatPump && m.ground.is_none();
    let helpless = |zone: &ZoneDesign| {
        let pump = zone.heaters.first().and_then(|i| machines.get(*i)).filter(is_by_air)?;
        (zone.defrost_aux.is_none() && zone.tempering.is_none()).then_some(pump)
    };
    let ducted_behind = |zone: &ZoneDesign| {
        zone.heaters.iter().skip(1).filter_map(|i| machines.get(*i)).any(|machine| machine.ducted)
    };
    let says_none = |zone: &ZoneDesign| {
        ducted_behind(zone) && helpless(zone).is_some_and(|pump| pump.ducted && !asks_furnace(pump))
    };
    let any = designs.iter().flat_map(|d| &d.zones).any(says_none);
    let without_furnace = machines.iter().filter(|pump| asks_furnace(pump)).filter_map(|pump| {
        let of_pump = |zone: &ZoneDesign| helpless(zone).is_some_and(|found| found.name == pump.name);
        let options = designs.iter().filter(|design| design.zones.iter().any(of_pump));
        let options: Vec<String> = options.map(|design| design.name.clone()).collect();
        (!options.is_empty()).then(|| Oddity::NoFurnaceToTemper { machine: pump.name.clone(), options })
    });
    any.then_some(Oddity::DefrostHeatNotCounted).into_iter().chain(without_furnace).collect()
}

fn odd_prices(job: &Job, prices: &Prices, fuels: &Fuels) -> Vec<Oddity> {
    if !CURRENCIES.contains(&job.job.currency.value.as_str()) {
        return Vec::new();
    }
    let odd = |p: &crate::prices::FuelPrice| {
        let fuel = fuels.get(p.fuel)?;
        if let Some(month) = odd_month(job, fuel) {
            return Some(month);
        }
        let ordinary = ordinary_at_retail(fuel);
        let price = p.tier_prices().find(|price| !ordinary.contains(price))?;
        let per_unit = price * fuel.kwh_per_unit;
        Some(Oddity::OddPrice { fuel: fuel.name.clone(), per_unit, unit: fuel.selling_unit.clone() })
    };
    prices.0.iter().filter_map(odd).collect()
}

/// The month furthest from the others.
fn odd_month(job: &Job, fuel: &Fuel) -> Option<Oddity> {
    let rest = job.prices.fuel(&fuel.id)?.rate.rest.as_ref()?.rest.as_ref()?;
    let PriceSection::ByMonth(months) = rest else { return None };
    let times = |place: usize| {
        let mut others: Vec<f64> = months.value.iter().map(|month| month.amount).collect();
        let amount = others.remove(place);
        others.sort_by(f64::total_cmp);
        let median = others.get(others.len() / 2).copied().filter(|median| *median > 0.0)?;
        Some((amount / median, median))
    };
    let odd = (0..months.value.len()).find_map(|place| {
        let (times, median) = times(place)?;
        (!MONTH.contains(&times)).then_some((place, median))
    });
    let (place, median) = odd?;
    let price = months.value.get(place)?;
    Some(Oddity::OddMonthPrice {
        fuel: fuel.name.clone(),
        month: place,
        amount: price.amount,
        median,
        unit: price.per.clone(),
    })
}

/// Amounts that may be a year's, typed for a month.
fn large_fees(job: &Job, prices: &Prices, fuels: &Fuels) -> Vec<Oddity> {
    let ordinary = CURRENCIES.contains(&job.job.currency.value.as_str());
    let fees = prices.0.iter().filter(|_| ordinary).flat_map(|p| {
        let fees = [("fixed", p.fixed_per_month, FIXED_A_MONTH), ("rent", p.rent_per_month, RENT_A_MONTH)];
        fees.into_iter().filter_map(|(key, per_month, most)| {
            let fuel = fuels.get(p.fuel)?.name.clone();
            (per_month > most).then_some(Oddity::LargeFee { fuel, key, per_month })
        })
    });
    fees.collect()
}

/// A zone whose own floor is known, else the house.
pub(super) fn odd_load(job: &Job) -> Option<Oddity> {
    let zone = job.house.zone.iter().find_map(|zone| {
        let kw_m2 = zone.design_load.base() / zone.floor_area.as_ref()?.base();
        let odd = !LOAD_KW_M2.contains(&kw_m2);
        odd.then(|| Oddity::OddLoad { zone: Some(zone.name.value.clone()), kw_m2 })
    });
    zone.or_else(|| odd_load_of_house(job))
}

fn odd_load_of_house(job: &Job) -> Option<Oddity> {
    let area_m2 = job.house.floor_area.as_ref()?.base();
    let load_kw: f64 = job.house.zone.iter().map(|z| z.design_load.base()).sum();
    let kw_m2 = load_kw / area_m2;
    (!LOAD_KW_M2.contains(&kw_m2)).then_some(Oddity::OddLoad { zone: None, kw_m2 })
}

fn odd_map(machine: &Machine) -> Option<Oddity> {
    let rows = machine.heating.as_ref()?.map.rows();
    let strongest = |a: &&MapRow, b: &&MapRow| a.greatest.capacity_kw.total_cmp(&b.greatest.capacity_kw);
    let warm = rows.iter().filter(|row| row.outdoor_c >= MILD_C).max_by(strongest).or(rows.last())?;
    let cold = rows.iter().filter(|row| row.outdoor_c < warm.outdoor_c).max_by(strongest)?;
    let times = cold.greatest.capacity_kw / warm.greatest.capacity_kw;
    (times > RISE_INTO_COLD).then(|| Oddity::OddMap {
        machine: machine.name.clone(),
        cold_c: cold.outdoor_c,
        warm_c: warm.outdoor_c,
        times,
    })
}

/// Strips that are to temper the air of a heat pump with more than the bank behind it has.
pub(super) fn tempered_beyond_the_bank(designs: &[OptionDesign], machines: &[Machine]) -> Vec<Oddity> {
    let zones = designs.iter().flat_map(|design| &design.zones);
    let beyond = zones.filter_map(|zone| {
        let aux = zone.defrost_aux?;
        let machine = |place: usize| zone.heaters.get(place).and_then(|i| machines.get(*i));
        let (pump, bank) = (machine(0)?, machine(aux.bank?)?);
        let bank_kw: f64 = bank.stages_kw.iter().sum();
        (aux.kw > bank_kw * (1.0 + 1e-9)).then(|| Oddity::TemperedBeyondBank {
            machine: pump.name.clone(),
            kw: aux.kw,
            bank: bank.name.clone(),
            bank_kw,
        })
    });
    let mut found: Vec<Oddity> = Vec::new();
    for odd in beyond {
        if !found.contains(&odd) {
            found.push(odd);
        }
    }
    found
}
