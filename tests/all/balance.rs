//! Laws that hold whatever the numbers are, and that a wrong program breaks: energy of the room,
//! fuel, bins against hours, bills against use, one run against many.
//!
//! Start at the tests.

use crate::demo_job::{self, Draws, STEADY, chicago, compared, plan_of, run_of};
use crate::oracle_agrees::dice::Dice;
use proptest::prelude::*;
use winterledger::comparison::{Comparison, compare};
use winterledger::equipment::combustion::furnace_row;
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::{Heating, Machine, MachineKind};
use winterledger::fuel::FuelId;
use winterledger::ledger::{Posting, Reason};
use winterledger::load::{Schedule, SetBack, Zone};
use winterledger::simulation::design::{OptionDesign, ZoneDesign};
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::{Sink, Trace, ZoneRecord};
use winterledger::simulation::state::FuelLimit;
use winterledger::simulation::{EndUse, FuelLimits, OptionState, advance};
use winterledger::weather::{OutdoorRun, Weather};

/// The room's energy, hour by hour, from its temperatures at both ends.
#[derive(Default)]
struct RoomBalance {
    worst_kwh: f64,
    hours: usize,
    vented: usize,
    cooled: usize,
    short: usize,
}

impl Sink for RoomBalance {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let (outcome, figures) = (record.outcome, record.plan.room_in(record.hour, record.outdoor_c));
        let capacity = record.plan.heat_capacity_kwh_k;
        // The mean of an exponential from start towards rest, worked out anew.
        let k = figures.loss_kw_k / capacity;
        let net = figures.gains_kw + outcome.heat - outcome.cooling;
        let rest = record.outdoor_c + net / figures.loss_kw_k;
        let mean = rest + (record.start_c - rest) * (1.0 - (-k).exp()) / k;
        let stored = capacity * (outcome.end_c - record.start_c);
        let got = figures.loss_kw_k * (record.outdoor_c - mean) + net - capacity * outcome.vented_k;
        self.worst_kwh = self.worst_kwh.max((stored - got).abs());
        self.hours += 1;
        self.vented += usize::from(outcome.vented_k > 0.0);
        self.cooled += usize::from(outcome.cooling > 0.0);
        self.short += usize::from(outcome.heat < 0.99 * outcome.need);
    }
}

fn through<S: Sink>(plan: &OptionPlan, mut sink: S) -> S {
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut sink);
    sink
}

#[test]
fn the_rooms_of_every_option_keep_the_energy_they_are_given() {
    let c = compared(&[]);
    let run = run_of(&c);
    let mut met = RoomBalance::default();
    for option in 0..c.options.len() {
        met = through(&plan_of(&c, option, &run), met);
    }
    assert!(met.worst_kwh < 1e-9, "{}", met.worst_kwh);
    assert_eq!(met.hours, 6 * 2 * 8760);
    assert!(met.vented > 100 && met.cooled > 100 && met.short > 100, "no hard hours in it");
}

/// Fuel burned, and heat and blower against it.
#[derive(Default)]
struct FurnaceBalance {
    burned_kwh: f64,
    worst_kwh: f64,
    worst_kw: f64,
}

impl Sink for FurnaceBalance {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        for (heater, output) in record.plan.heaters.iter().zip(&record.outcome.heaters) {
            if heater.fuel != FuelId::ELECTRICITY {
                self.burned_kwh += output.draw;
                self.worst_kw = self.worst_kw.max(output.draw);
                // AFUE 0.95 of the demonstration's propane furnace, and its blower's warmth.
                let off = output.heat - (0.95 * output.draw + output.side);
                self.worst_kwh = self.worst_kwh.max(off.abs());
            }
        }
    }
}

#[test]
fn fuel_that_may_be_burned_is_burned_or_left() {
    let c = compared(&[]);
    let run = run_of(&c);
    let propane = c.fuels.find("propane").unwrap();
    for option in [2, 3] {
        let plan = plan_of(&c, option, &run);
        let mut sink = FurnaceBalance::default();
        let mut state = OptionState::at_set_point(&plan);
        let limit = FuelLimit { fuel: propane, left_kwh: 9000.0, greatest_kw: 12.0 };
        let mut limits = FuelLimits::of(vec![limit]);
        advance(&plan, 0..8760, &mut state, &mut limits, &mut sink);
        let left = limits.iter().next().unwrap().left_kwh;
        assert!((sink.burned_kwh + left - 9000.0).abs() < 1e-9 * 9000.0, "{} + {left}", sink.burned_kwh);
        assert!(sink.worst_kwh < 1e-9 && sink.worst_kw <= 12.0 + 1e-9, "{}", sink.worst_kwh);
        assert!(option == 3 || left == 0.0, "the furnace alone must run dry for this to say anything");
    }
}

#[test]
fn unlimited_limits_change_no_bit() {
    let c = compared(&[]);
    let run = run_of(&c);
    let unlimited = |id: &str| FuelLimit {
        fuel: c.fuels.find(id).unwrap(),
        left_kwh: f64::INFINITY,
        greatest_kw: f64::INFINITY,
    };
    for option in 0..c.options.len() {
        let plan = plan_of(&c, option, &run);
        let mut trace = Trace::default();
        let mut state = OptionState::at_set_point(&plan);
        let mut limits = FuelLimits::of(vec![unlimited("propane"), unlimited("oil_no_2")]);
        advance(&plan, 0..8760, &mut state, &mut limits, &mut trace);
        assert!(trace == through(&plan, Trace::default()), "{}", c.options[option].design.name);
    }
}

#[test]
fn a_run_resumed_from_any_saved_midnight_equals_one_run() {
    let set_back = "set_back = [{ from = \"22:00\", to = \"06:00\", set_point = \"62 degF\" }]\n";
    let text = demo_job::text();
    let text = text.replace("indoor = \"70 degF\"\n", &format!("indoor = \"70 degF\"\n{set_back}"));
    let c = compare(&demo_job::job(&text, &[]), &chicago()).unwrap();
    let run = run_of(&c);
    // The option that goes cold, so that twin and recovery are under way at midnights.
    let plan = plan_of(&c, 1, &run);
    let whole = through(&plan, Trace::default());
    let mut state = OptionState::at_set_point(&plan);
    let mut twins = 0;
    for day in 0..365 {
        // What was saved is a copy; the run goes on from it as read back.
        let mut resumed = state.clone();
        let mut trace = Trace::default();
        let mut limits = FuelLimits::none();
        advance(&plan, day * 24..day * 24 + 24, &mut resumed, &mut limits, &mut trace);
        assert!(trace.outcomes == whole.outcomes[day * 48..day * 48 + 48], "day {day}");
        twins += usize::from(resumed.zones.iter().any(|z| z.twin_c.is_some()));
        state = resumed;
    }
    assert!(twins > 5, "no midnight with a twin room under way");
}

/// Heating and cooling energy, all fuels, kWh; standby is not in the bins.
fn energy(c: &Comparison, option: usize) -> f64 {
    let running = |p: &&Posting| {
        p.reason != Reason::FixedCharge && !matches!(p.end_use, EndUse::Standby | EndUse::FixedCharge)
    };
    let kwh = |p: &Posting| p.quantity * c.fuels.get(p.fuel).unwrap().kwh_per_unit;
    c.options[option].ledger.postings.iter().filter(running).map(kwh).sum()
}

#[test]
fn bins_and_hours_agree_where_the_load_depends_on_temperature_alone() {
    let job = demo_job::job(&demo_job::with_flat_propane(&demo_job::text()), &STEADY);
    let by_hours = compare(&job, &chicago()).unwrap();
    let by_bins = compare(&job, &Weather::Bins(by_hours.bins.clone())).unwrap();
    for option in 0..by_hours.options.len() {
        let name = &by_hours.options[option].design.name;
        let (hours, bins) = (energy(&by_hours, option), energy(&by_bins, option));
        assert!((bins / hours - 1.0).abs() < 0.02, "{name}: energy by bins {bins}, by hours {hours}");
        let zones = by_hours.options[option].zones.iter().zip(&by_bins.options[option].zones);
        for (hours, bins) in zones {
            let heat: f64 = bins.bins.iter().map(|row| row.heat_kw * row.hours).sum();
            let ratio = heat / hours.sums.heat_kwh;
            assert!(
                (ratio - 1.0).abs() < 0.02,
                "{name}: heat by bins {heat}, by hours {}",
                hours.sums.heat_kwh
            );
        }
    }
}

fn always(point: Point, kind: MachineKind, outdoor: &[f64]) -> Machine {
    let row = |outdoor_c: &f64| MapRow { outdoor_c: *outdoor_c, least: point, rated: point, greatest: point };
    Machine {
        heating: Some(Heating::of(PerformanceMap::new(outdoor.iter().map(row).collect()).unwrap())),
        ..Machine::new("", kind, FuelId::ELECTRICITY)
    }
}

fn zone(loss_kw_k: f64, heat_capacity_kwh_k: f64) -> Zone {
    Zone {
        name: String::new(),
        loss_kw_k,
        gains_kw: 0.8,
        heat_capacity_kwh_k,
        indoor_c: 21.0,
        design_temperature_c: -18.0,
        balance_temperature_c: 21.0 - 0.8 / loss_kw_k,
        heating: Schedule {
            set_point_c: 21.0,
            set_backs: vec![SetBack { from_minute: 1320, to_minute: 360, set_point_c: 18.0 }],
        },
        vent_c: 25.0,
        cooling: None,
        duct_efficiency: 1.0,
        duct_line: None,
    }
}

fn plan(zone: &Zone, machine: &Machine, run: &OutdoorRun) -> OptionPlan {
    let design = ZoneDesign { heaters: vec![0], ..ZoneDesign::default() };
    let design = OptionDesign { zones: vec![design], ..OptionDesign::default() };
    OptionPlan::new(&design, std::slice::from_ref(zone), std::slice::from_ref(machine), run)
}

#[test]
fn a_heat_pump_of_cop_one_equals_a_strip() {
    let run = run_of(&compared(&[]));
    let point = Point { capacity_kw: 7.0, power_kw: 7.0 };
    let pump = always(point, MachineKind::HeatPump, &[-40.0, 15.0]);
    let strip = always(point, MachineKind::Resistance, &[f64::NEG_INFINITY]);
    let zone = zone(0.25, 6.0);
    let [pump, strip] = [pump, strip].map(|m| through(&plan(&zone, &m, &run), Trace::default()).outcomes);
    let mut kwh = 0.0;
    for (a, b) in pump.iter().zip(&strip) {
        assert!((a.heaters[0].draw - b.heaters[0].draw).abs() < 1e-12, "{a:?} {b:?}");
        assert!((a.heaters[0].draw - a.heaters[0].heat).abs() < 1e-12 && (a.end_c - b.end_c).abs() < 1e-12);
        kwh += a.heaters[0].draw;
    }
    assert!(kwh > 5000.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn more_insulation_never_costs_more_heat(
        seed in 0_u64..1_000_000,
        loss in 0.08_f64..0.5,
        better in 0.3_f64..0.999,
        heat_capacity in prop_oneof![Just(0.0), 0.5_f64..20.0],
        most in 2.0_f64..20.0,
    ) {
        let mut dice = Dice::new(seed);
        let mut run = run_of(&compared_once());
        let shift = dice.real(-10.0, 10.0);
        let shifted = run.dry_bulb_c.iter().map(|t| t + shift).collect();
        run.dry_bulb_c = winterledger::series::Hourly::new(shifted).unwrap();
        let row = furnace_row(most, 0.9, 0.3, 1.0);
        let mut machine = always(row.greatest, MachineKind::Furnace, &[f64::NEG_INFINITY]);
        machine.heating.as_mut().unwrap().fan_kw = 0.3;
        let heat = |loss| {
            let outcomes = through(&plan(&zone(loss, heat_capacity), &machine, &run), Trace::default()).outcomes;
            outcomes.iter().map(|o| o.heat).sum::<f64>()
        };
        let (before, after) = (heat(loss), heat(loss * better));
        prop_assert!(after <= before * (1.0 + 1e-12), "{before} kWh before, {after} after");
    }
}

/// The demonstration's comparison, made once for all the cases of a property.
fn compared_once() -> Comparison {
    static ONCE: std::sync::OnceLock<Comparison> = std::sync::OnceLock::new();
    ONCE.get_or_init(|| compared(&[])).clone()
}

/// Cents and dollars as the job has them, and the spike's days, typed once more.
const PROPANE_PER_GALLON: [f64; 12] =
    [2.69, 2.59, 2.39, 2.10, 1.90, 1.79, 1.69, 1.75, 1.95, 2.15, 2.35, 2.55];
const ELECTRICITY_PER_KWH: f64 = 0.184;
const ELECTRICITY_A_MONTH: f64 = 36.0;
/// 91,452 Btu of 1,055.05585262 J in a gallon.
const PROPANE_KWH_PER_GALLON: f64 = 91_452.0 * 1_055.055_852_62 / 3.6e6;

#[test]
fn each_months_bill_is_that_of_its_total_use() {
    let c = compared(&[]);
    let run = run_of(&c);
    let propane = c.fuels.find("propane").unwrap();
    for (i, option) in c.options.iter().enumerate() {
        let draws = Draws { stamps: run.calendar.stamps(), list: Vec::new() };
        let draws = through(&plan_of(&c, i, &run), draws).list;
        for month in 1..=12_u8 {
            let posted = |fuel| option.ledger.sum(|p| p.fuel == fuel && p.month == Some(month));
            let of = |fuel| draws.iter().filter(move |(f, s, _)| *f == fuel && s.month == month);
            let kwh: f64 = of(FuelId::ELECTRICITY).map(|d| d.2).sum();
            let bill = ELECTRICITY_A_MONTH + ELECTRICITY_PER_KWH * kwh;
            assert!((posted(FuelId::ELECTRICITY) - bill).abs() < 1e-9 * bill, "{month}: {bill}");
            let gallons = of(propane).map(|(_, stamp, kwh)| {
                let spiked = (stamp.month == 1 && stamp.day >= 10) || stamp.month == 2;
                kwh / PROPANE_KWH_PER_GALLON * if spiked { 2.0 } else { 1.0 }
            });
            let bill = PROPANE_PER_GALLON[usize::from(month) - 1] * gallons.sum::<f64>();
            assert!((posted(propane) - bill).abs() <= 1e-9 * bill, "{month}: {} {bill}", posted(propane));
        }
    }
}

#[test]
fn the_yearly_cost_is_the_sum_of_the_postings_and_so_is_the_cost_of_each_use() {
    let c = compared(&[]);
    for option in &c.options {
        let sum: f64 = option.ledger.postings.iter().map(|p| p.amount).sum();
        assert!((option.yearly_cost() - sum).abs() < 1e-9);
        let each = option.ledger.postings.iter().map(|p| (p.amount - p.quantity * p.price).abs());
        assert!(each.fold(0.0, f64::max) < 1e-9, "a posting is not quantity times price");
    }
}

#[test]
fn a_year_that_begins_in_a_set_back_does_not_warm_up_a_room_that_never_cooled() {
    // Hand-worked: on 1 July at midnight the set-back holds; a room that began at it would be warmed by 4.4 K
    // times the heat capacity at six. In Tucson's July nothing is wanted, so nothing is drawn, and the
    // largest hour that a demand charge would bill is none.
    let changes = [
        ("house.zone.main.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"62 degF\" }]"),
        ("site.weather", "\"az-tucson\""),
    ];
    let job = demo_job::job(&demo_job::text(), &changes);
    let weather = Weather::Year(Box::new(winterledger::weather::places::open("az-tucson").unwrap()));
    let c = compare(&job, &weather).unwrap();
    let run = run_of(&c);
    let plan = plan_of(&c, 0, &run);
    assert!(plan.zones[0].set_points_c[0] < plan.zones[0].set_points_c[12] - 4.0);
    let mut state = OptionState::at_set_point(&plan);
    let mut trace = Trace::default();
    advance(&plan, 0..31 * 24, &mut state, &mut FuelLimits::none(), &mut trace);
    assert!(trace.outcomes.iter().all(|o| o.heat == 0.0));
}
