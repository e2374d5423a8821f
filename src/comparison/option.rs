//! One option through the pipeline: plan, hours, bills, ledger; or bins, where there are no hours.
//!
//! Start at [`through_year`].

use super::laid::laid;
use super::recovery::{Warmth, WithoutSetBacks, without_set_backs};
use super::setting::Setting;
use super::stocked::{Stocked, no_sums, year_on_stores};
use super::store::{OrdinaryTerms, StoreResult};
use crate::coldnight::{Carried, ColdNight, carried, first_heater_balance_c, fuelling_lasts_h};
use crate::fuel::FuelId;
use crate::ledger::{Ledger, Posting, Reason};
use crate::simulation::bins::{BinRow, EconomicBalance, bin_rows, economic_balance};
use crate::simulation::comfort::{Comfort, SHARE_OF_NEED};
use crate::simulation::design::OptionDesign;
use crate::simulation::hour_map::OffHours;
use crate::simulation::plan::OptionPlan;
use crate::simulation::sums::{YearSums, ZoneSums};
use crate::simulation::{EndUse, EnergyByHour, FuelLimits, OptionState, advance};
use crate::supply::Supplied;
use crate::supply::meter::{Customer, accounts, bill_months, one_bill};
use crate::supply::store::Store;
use crate::weather::OutdoorRun;

/// What came of one option.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionResult {
    /// The option as designed.
    pub design: OptionDesign,
    /// Energy drawn in the year.
    pub energy: EnergyByHour,
    /// Every posting of the year.
    pub ledger: Ledger,
    /// What heating adds to the bills: all of them less those of every other use alone, in the job's
    /// currency. It may be less than what heating is charged where others would pay more without it.
    pub heating_adds: f64,
    /// The stores it burns from, through the year.
    pub stores: Vec<StoreResult>,
    /// Each zone's results, in the house's order.
    pub zones: Vec<ZoneResult>,
    /// How it goes through the coldest night, through failures and without power.
    pub cold_night: ColdNight,
    /// The yearly cost with every input derived from a nameplate at the low end of its band, and at
    /// the high end; nothing where no machine is derived from one.
    pub cost_at_band_ends: Option<[f64; 2]>,
    /// The same year without set-backs, where with them some hour is too cold.
    pub without_set_backs: Option<WithoutSetBacks>,
    /// The best ordinary terms for the fuel that comes by truck; nothing where none does.
    pub ordinary: Option<OrdinaryTerms>,
}

/// What came of one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneResult {
    /// Heat, backup, comfort.
    pub sums: ZoneSums,
    /// Hours in which each heater was off, in order.
    pub off: Vec<OffHours>,
    /// The zone through the bins, warm to cold.
    pub bins: Vec<BinRow>,
    /// Down to here the first heater alone carries the zone, °C; nothing if it always does.
    pub first_heater_balance_c: Option<f64>,
    /// From where its second heater heats for less, where the two take turns by cost.
    pub economic_balance: Option<EconomicBalance>,
    /// At the design temperature.
    pub at_design: Carried,
    /// At the coldest night to plan for, if the job gives one.
    pub at_extreme_low: Option<Carried>,
    /// Hours that a day's fuelling lasts there if it burns as heat is wanted; nothing where the zone does
    /// not hang on that.
    pub fuelling_lasts_h: Option<f64>,
}

impl OptionResult {
    /// What it costs in a year, in the job's currency.
    pub fn yearly_cost(&self) -> f64 {
        self.ledger.total()
    }

    /// The least and the greatest yearly cost within what its nameplates leave open.
    ///
    /// On a changeover a better machine could run more and cost more: the ends need not be in order.
    pub fn yearly_cost_range(&self) -> Option<(f64, f64)> {
        let [low, high] = self.cost_at_band_ends?;
        let cost = self.yearly_cost();
        Some((low.min(cost).min(high), low.max(cost).max(high)))
    }

    /// How much more the option costs in a year than `other`, the least and the greatest that what
    /// nameplates leave open allows; what both know from nameplates is at the same end in both.
    pub fn costs_more_than(&self, other: &Self) -> (f64, f64) {
        let ends = |o: &Self| o.cost_at_band_ends.unwrap_or([o.yearly_cost(); 2]);
        let ([low, high], [other_low, other_high]) = (ends(self), ends(other));
        let more = [low - other_low, self.yearly_cost() - other.yearly_cost(), high - other_high];
        (more.into_iter().fold(f64::INFINITY, f64::min), more.into_iter().fold(f64::NEG_INFINITY, f64::max))
    }

    /// What hot water, drying, cooking and base electricity cost a year, fixed charges and fees left out. What comes
    /// from a store costs its share of what is burned: which deliveries fall in the year is chance.
    pub fn household_cost(&self) -> f64 {
        let is_stored = |fuel| self.stores.iter().any(|store| store.supplied.store.fuel == fuel);
        let uses = [EndUse::Base, EndUse::HotWater, EndUse::Cooking, EndUse::Drying];
        let bills = self.ledger.sum(|p| uses.contains(&p.end_use) && !is_stored(p.fuel));
        bills + self.stores.iter().map(|store| store.supplied.household_share()).sum::<f64>()
    }

    /// Whether what heating adds is not what it is charged, to half a unit of the currency.
    pub fn heating_adds_other(&self) -> bool {
        let charged = self.ledger.sum(|p| p.end_use.is_heating());
        (self.heating_adds - charged).abs() >= 0.5
    }

    /// Hours of the year in which a zone was not kept warm; the worst zone's.
    pub fn hours_not_kept_warm(&self) -> usize {
        worst(self.zones.iter().map(|z| &z.sums))
    }

    /// The place of the month that costs most, from 0, and what it costs in the job's currency, over the levels
    /// at which the stores may begin, which decide when a truck comes; nothing where there is no store. Levels at
    /// which a truck would be ordered on the first day are left out: its bill would be the spring's.
    pub fn dearest_month_over_levels(&self) -> Option<(usize, f64)> {
        let levels = self.stores.first()?.supplied.paid_over_levels.len();
        let is_bill = |p: &Posting| !matches!(p.reason, Reason::Store(_));
        let bill =
            |month: usize| self.ledger.sum(|p| p.month.map(usize::from) == Some(month + 1) && is_bill(p));
        let bills: [f64; 12] = std::array::from_fn(bill);
        let is_ordered = |level: usize, store: &Store| {
            let kwh = store.tank.levels(levels).get(level).copied();
            kwh.is_some_and(|kwh| kwh <= store.contract.reorder_kwh)
        };
        let rests = |level: &usize| !self.stores.iter().any(|s| is_ordered(*level, &s.supplied.store));
        let some_rest = (0..levels).any(|level| rests(&level));
        let months = (0..levels).filter(|level| !some_rest || rests(level)).flat_map(|level| {
            let paid = move |month| self.stores.iter().map(|s| s.supplied.paid_in(level, month)).sum::<f64>();
            bills.into_iter().enumerate().map(move |(month, bill)| (month, bill + paid(month)))
        });
        months.max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Whether it keeps the house warm, and if not, why.
    pub fn warmth(&self) -> Warmth {
        let run_outs = self.stores.iter().map(|store| store.supplied.year.run_outs).sum();
        Warmth::of(self.hours_not_kept_warm(), run_outs, self.without_set_backs.as_ref())
    }

    /// Whether it lacks heat; an option that is only slow to recover from a set-back does not.
    pub fn goes_cold(&self) -> bool {
        self.warmth().lacks_heat()
    }

    /// The lowest room temperature of any zone, °C, where rooms have one.
    pub fn lowest_room_c(&self) -> Option<f64> {
        let rooms = self.zones.iter().filter_map(|z| z.sums.comfort.room.as_ref());
        rooms.map(|r| r.lowest_c).min_by(f64::total_cmp)
    }

    /// The smallest share of any zone's need that is met at the coldest night to plan for.
    pub fn share_at_extreme_low(&self) -> Option<f64> {
        let shares = self.zones.iter().filter_map(|z| z.at_extreme_low.as_ref());
        shares.map(Carried::share).min_by(f64::total_cmp)
    }

    /// Hours that the shortest day's fuelling lasts at the coldest night to plan for if it burns as heat is
    /// wanted; nothing where no zone hangs on that.
    pub fn fuelling_lasts_h(&self) -> Option<f64> {
        self.zones.iter().filter_map(|z| z.fuelling_lasts_h).min_by(f64::total_cmp)
    }

    /// Heat from backup that reached the rooms, kWh.
    pub fn backup_heat_kwh(&self) -> f64 {
        self.zones.iter().map(|z| z.sums.backup_heat_kwh).sum()
    }
}

/// Runs an option through a year of hours, and where some are too cold, if so asked, once more without
/// set-backs.
pub fn through_year(
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
    with_more_years: bool,
) -> OptionResult {
    let plan = laid(setting, design, run);
    let (sums, stores) = year(&plan, design, setting, run);
    let ledger =
        with_stores(bills(&sums.energy, Some(run), design, setting, &EndUse::DRAWING), &stores, setting);
    let heating_adds = heating_adds(&ledger, &sums.energy, Some(run), (design, &stores), setting);
    let stores = stores.into_iter().map(|store| StoreResult::new(store, design, setting));
    let stores = stores.collect();
    let off = plan.zones.iter().map(|z| z.heaters.iter().map(|h| h.off).collect());
    let zones = zone_results(design, setting, sums.zones, off.collect());
    let cold_night = ColdNight::new(design, &setting.house(), Some(&plan));
    let hours = worst(zones.iter().map(|zone| &zone.sums));
    let without_set_backs = with_more_years.then(|| steadily(hours, design, setting, run)).flatten();
    let (design, energy) = (design.clone(), sums.energy);
    let cost_at_band_ends = None;
    OptionResult {
        design,
        energy,
        ledger,
        heating_adds,
        stores,
        zones,
        cold_night,
        cost_at_band_ends,
        without_set_backs,
        ordinary: None,
    }
}

/// What an option costs in a year of hours, and nothing else, in the job's currency.
pub fn year_cost(design: &OptionDesign, setting: &Setting<'_>, run: &OutdoorRun) -> f64 {
    cost(design, setting, Some(run)).ledger.total()
}

/// Hours not kept warm of the zone that has most of them.
pub fn worst<'a>(zones: impl Iterator<Item = &'a ZoneSums>) -> usize {
    zones.map(|zone| zone.comfort.hours_not_kept_warm).max().unwrap_or_default()
}

/// The same year without set-backs, where there are some and with them `hours` are too cold.
pub fn steadily(
    hours: usize,
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> Option<WithoutSetBacks> {
    let zones = without_set_backs(setting.zones).filter(|_| hours > 0)?;
    let found = cost(design, &Setting { zones: &zones, ..*setting }, Some(run));
    let hours_not_kept_warm = worst(found.zones.iter());
    let (run_outs, yearly_cost) = (found.run_outs, found.ledger.total());
    Some(WithoutSetBacks { hours_not_kept_warm, run_outs, yearly_cost })
}

/// What an option costs, and how its zones fare.
pub struct Cost {
    /// Every posting.
    pub ledger: Ledger,
    /// One a zone.
    pub zones: Vec<ZoneSums>,
    /// What a kWh from each store costs on the mean, whatever its level at the start of the year.
    pub stored: Vec<(FuelId, f64)>,
    /// How often its stores ran dry.
    pub run_outs: usize,
}

/// What an option costs in a year of hours, or by bins where there are none.
pub fn cost(design: &OptionDesign, setting: &Setting<'_>, run: Option<&OutdoorRun>) -> Cost {
    let Some(run) = run else {
        let (by_zone, _, ledger) = bins(design, setting);
        let zones = by_zone.iter().map(|rows| sums_of_bins(rows)).collect();
        return Cost { ledger, zones, stored: Vec::new(), run_outs: 0 };
    };
    let plan = laid(setting, design, run);
    let (sums, stores) = year(&plan, design, setting, run);
    let ledger = bills(&sums.energy, Some(run), design, setting, &EndUse::DRAWING);
    let stored = mean_prices(&stores);
    let run_outs = stores.iter().map(|s| s.year.run_outs).sum();
    Cost { ledger: with_stores(ledger, &stores, setting), zones: sums.zones, stored, run_outs }
}

/// What an option costs whose energy is known already and comes from no store.
pub fn billed(
    energy: &EnergyByHour,
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: Option<&OutdoorRun>,
) -> Ledger {
    bills(energy, run, design, setting, &EndUse::DRAWING)
}

/// The same of an option that burns from stores, whose hours are run already; beside it what a kWh from
/// each store costs on the mean.
pub(super) fn bought(
    stocked: &Stocked,
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> (Ledger, Vec<(FuelId, f64)>) {
    let bought = stocked.bought(design, setting, run);
    let ledger = bills(&bought.sums().energy, Some(run), design, setting, &EndUse::DRAWING);
    (with_stores(ledger, &bought.stores, setting), mean_prices(&bought.stores))
}

fn mean_prices(stores: &[Supplied]) -> Vec<(FuelId, f64)> {
    stores.iter().map(|s| (s.store.fuel, s.mean_price_over_levels)).collect()
}

/// What the bills of a year of hours come to, stored fuels left out, in the job's currency.
pub fn bills_of(
    energy: &EnergyByHour,
    run: &OutdoorRun,
    design: &OptionDesign,
    setting: &Setting<'_>,
) -> f64 {
    bills(energy, Some(run), design, setting, &EndUse::DRAWING).total()
}

/// Whether an option would draw other energy at other prices.
pub fn energy_hangs_on_prices(design: &OptionDesign) -> bool {
    design.zones.iter().filter_map(|zone| zone.changeover).any(|changeover| changeover.on_cost.is_some())
}

fn year(
    plan: &OptionPlan,
    design: &OptionDesign,
    setting: &Setting<'_>,
    run: &OutdoorRun,
) -> (YearSums, Vec<Supplied>) {
    if !setting.supplies.of(&design.name).is_empty() {
        return year_on_stores(plan, design, setting, run);
    }
    let (mut sums, mut state) = (no_sums(setting, run), OptionState::at_set_point(plan));
    advance(plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut sums);
    (sums, Vec::new())
}

fn with_stores(bills: Ledger, stores: &[Supplied], setting: &Setting<'_>) -> Ledger {
    bills.with_stores(stores.iter().filter_map(|s| Some((s, setting.fuels.get(s.store.fuel)?))))
}

/// The bills of some uses of an option; without a run, one bill for all the year.
fn bills(
    energy: &EnergyByHour,
    run: Option<&OutdoorRun>,
    design: &OptionDesign,
    setting: &Setting<'_>,
    uses: &[EndUse],
) -> Ledger {
    let stamps = run.map(|run| run.calendar.stamps());
    let mut customer = customer(design, setting, run);
    if !uses.iter().any(|u| u.is_heating()) {
        customer.heating.clear();
    }
    let accounts = accounts(energy, stamps, setting.prices, setting.fuels, &customer, uses);
    Ledger::of(&stamps.map_or_else(one_bill, bill_months), &accounts)
}

/// What heating adds: the bills less those of all other uses alone.
fn heating_adds(
    ledger: &Ledger,
    energy: &EnergyByHour,
    run: Option<&OutdoorRun>,
    (design, stores): (&OptionDesign, &[Supplied]),
    setting: &Setting<'_>,
) -> f64 {
    let others: Vec<EndUse> = EndUse::DRAWING.into_iter().filter(|u| !u.is_heating()).collect();
    let of_others: f64 = stores.iter().map(|store| store.cost() - store.heating_adds()).sum();
    ledger.total() - bills(energy, run, design, setting, &others).total() - of_others
}

/// Runs an option through bins alone.
pub fn through_bins(design: &OptionDesign, setting: &Setting<'_>) -> OptionResult {
    let (by_zone, energy, ledger) = bins(design, setting);
    let heating_adds = heating_adds(&ledger, &energy, None, (design, &[]), setting);
    let sums = by_zone.iter().map(|rows| sums_of_bins(rows)).collect();
    let zones = zone_results(design, setting, sums, vec![Vec::new(); setting.zones.len()]);
    let cold_night = ColdNight::new(design, &setting.house(), None);
    let (design, stores) = (design.clone(), Vec::new());
    let (cost_at_band_ends, without_set_backs) = (None, None);
    OptionResult {
        design,
        energy,
        ledger,
        heating_adds,
        stores,
        zones,
        cold_night,
        cost_at_band_ends,
        without_set_backs,
        ordinary: None,
    }
}

/// What an option costs by bins alone, in the job's currency.
pub fn bins_cost(design: &OptionDesign, setting: &Setting<'_>) -> f64 {
    bins(design, setting).2.total()
}

fn bins(design: &OptionDesign, setting: &Setting<'_>) -> (Vec<Vec<BinRow>>, EnergyByHour, Ledger) {
    let rows = |(zone, d)| bin_rows(zone, d, setting.machines, setting.bins, setting.frost);
    let by_zone: Vec<Vec<BinRow>> = setting.zones.iter().zip(&design.zones).map(rows).collect();
    let hours = setting.bins.iter().map(|b| b.hours).sum();
    let rooms = by_zone.iter().flatten().flat_map(|row| row.energy.iter().copied());
    let energy: Vec<_> = design.household.energy(hours).into_iter().chain(rooms).collect();
    let energy = EnergyByHour::in_one(setting.fuels.count(), &energy);
    let ledger = bills(&energy, None, design, setting, &EndUse::DRAWING);
    (by_zone, energy, ledger)
}

fn zone_results(
    design: &OptionDesign,
    setting: &Setting<'_>,
    sums: Vec<ZoneSums>,
    off: Vec<Vec<OffHours>>,
) -> Vec<ZoneResult> {
    let machines = setting.machines;
    let coldest_c =
        setting.bins.iter().map(|b| b.temperature_c).chain(setting.extreme_low_c).fold(0.0, f64::min);
    let zones = setting.zones.iter().zip(&design.zones).zip(sums).zip(off);
    let results = zones.map(|(((zone, d), sums), off)| ZoneResult {
        sums,
        off,
        bins: bin_rows(zone, d, machines, setting.bins, setting.frost),
        first_heater_balance_c: first_heater_balance_c(zone, d, machines, coldest_c),
        economic_balance: economic_balance(zone, d, machines, coldest_c, setting.frost),
        at_design: carried(zone, d, machines, zone.design_temperature_c),
        at_extreme_low: setting.extreme_low_c.map(|t| carried(zone, d, machines, t)),
        fuelling_lasts_h: setting.extreme_low_c.and_then(|t| fuelling_lasts_h(zone, d, machines, t)),
    });
    results.collect()
}

/// Without a run there are no days, and so no stores.
fn customer(design: &OptionDesign, setting: &Setting<'_>, run: Option<&OutdoorRun>) -> Customer {
    let heaters = design.zones.iter().flat_map(|z| &z.heaters);
    let heating = heaters.filter_map(|i| setting.machines.get(*i)).map(|m| m.fuel);
    let stores = run.map(|_| setting.supplies.of(&design.name)).unwrap_or_default();
    Customer {
        heating: heating.collect(),
        household: design.household.fuels().collect(),
        stored: stores.iter().map(|store| store.fuel).collect(),
    }
}

fn sums_of_bins(rows: &[BinRow]) -> ZoneSums {
    let sum = |of: fn(&BinRow) -> f64| rows.iter().map(|r| r.hours * of(r)).sum::<f64>();
    let hours = |which: fn(&BinRow) -> bool| {
        rows.iter().filter(|r| which(r)).map(|r| r.hours).sum::<f64>().round() as usize
    };
    ZoneSums {
        comfort: Comfort {
            hours_not_kept_warm: hours(|r| r.heat_kw < SHARE_OF_NEED * r.need_kw),
            heat_not_delivered_kwh: sum(|r| r.need_kw - r.heat_kw),
            ..Comfort::default()
        },
        need_kwh: sum(|r| r.need_kw),
        heat_kwh: sum(|r| r.heat_kw),
        backup_heat_kwh: sum(|r| r.backup_kw),
        backup_hours: hours(|r| r.backup_kw > 0.0),
        cooling_kwh: sum(|r| r.cooling_kw),
        ..ZoneSums::default()
    }
}
