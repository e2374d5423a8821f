//! Changeover on cost, staged recovery and lock-outs, each on a zone small enough to work out by hand.
//!
//! Start at [`zone`].

use crate::demo_job::{chicago, compared, job, plan_of, run_of, text};
use winterledger::calendar::Calendar;
use winterledger::comparison::{Note, compare};
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::{Heating, Machine, MachineKind, combustion::furnace_row};
use winterledger::fuel::{FuelId, Fuels};
use winterledger::load::{Schedule, SetBack, Zone};
use winterledger::series::Hourly;
use winterledger::simulation::bins::{EconomicBalance, economic_balance};
use winterledger::simulation::design::{Changeover, OptionDesign, ZoneDesign};
use winterledger::simulation::frost::FrostShares;
use winterledger::simulation::kernel::Worth;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::{Sink, Trace, ZoneRecord};
use winterledger::simulation::state::FuelLimit;
use winterledger::simulation::sums::YearSums;
use winterledger::simulation::{FuelLimits, OptionState, advance};
use winterledger::weather::OutdoorRun;

/// Loss 0.25 kW/K from 20 °C, no gains.
pub(crate) fn zone(heat_capacity_kwh_k: f64) -> Zone {
    Zone {
        name: String::new(),
        loss_kw_k: 0.25,
        gains_kw: 0.0,
        heat_capacity_kwh_k,
        indoor_c: 20.0,
        design_temperature_c: -20.0,
        balance_temperature_c: 20.0,
        heating: Schedule { set_point_c: 20.0, set_backs: Vec::new() },
        vent_c: 25.0,
        cooling: None,
        duct_efficiency: 1.0,
        duct_line: None,
    }
}

pub(crate) fn machine(kind: MachineKind, fuel: FuelId, rows: Vec<MapRow>, cycling_loss: f64) -> Machine {
    let heating = Heating { cycling_loss, ..Heating::of(PerformanceMap::new(rows).unwrap()) };
    Machine { heating: Some(heating), ..Machine::new("", kind, fuel) }
}

/// A heat pump of one output that follows the load at these outdoor temperatures and COPs.
fn heat_pump(capacity_kw: f64, cops: &[(f64, f64)]) -> Machine {
    let row = |(outdoor_c, cop): &(f64, f64)| {
        let point = Point { capacity_kw, power_kw: capacity_kw / cop };
        MapRow { outdoor_c: *outdoor_c, least: point, rated: point, greatest: point }
    };
    machine(MachineKind::HeatPump, FuelId::ELECTRICITY, cops.iter().map(row).collect(), 0.0)
}

pub(crate) fn propane() -> FuelId {
    Fuels::built_in().unwrap().find("propane").unwrap()
}

pub(crate) fn furnace(input_kw: f64, afue: f64) -> Machine {
    machine(MachineKind::Furnace, propane(), vec![furnace_row(input_kw, afue, 0.0, 1.0)], 0.0)
}

pub(crate) fn strips(kw: f64) -> Machine {
    machine(MachineKind::Resistance, FuelId::ELECTRICITY, vec![furnace_row(kw, 1.0, 0.0, 1.0)], 0.0)
}

pub(crate) fn run(outdoor_c: Vec<f64>, dew_point_c: Option<Vec<f64>>) -> OutdoorRun {
    OutdoorRun {
        calendar: Calendar::of_one_year(2023, outdoor_c.len(), 0.0, None),
        dry_bulb_c: Hourly::new(outdoor_c).unwrap(),
        dew_point_c: dew_point_c.map(|dew| Hourly::new(dew).unwrap()),
    }
}

pub(crate) fn plan(zone: &Zone, design: ZoneDesign, machines: &[Machine], run: &OutdoorRun) -> OptionPlan {
    let design = OptionDesign { zones: vec![design], ..OptionDesign::default() };
    OptionPlan::new(&design, std::slice::from_ref(zone), machines, run)
}

pub(crate) fn through<S: Sink>(plan: &OptionPlan, mut limits: FuelLimits, mut sink: S) -> S {
    let mut state = OptionState::at_set_point(plan);
    advance(plan, 0..plan.outdoor_c.len(), &mut state, &mut limits, &mut sink);
    sink
}

pub(crate) fn on_cost(worth: Worth<f64>) -> ZoneDesign {
    let changeover = Changeover { compressor_lockout_c: None, whole_hour: false, on_cost: Some(worth) };
    ZoneDesign { heaters: vec![0, 1], changeover: Some(changeover), ..ZoneDesign::default() }
}

/// Electricity 0.15 a kWh, propane at so much a gallon of 26.8019 kWh.
fn worth(per_gallon: f64) -> Worth<f64> {
    Worth { lead: 0.15, alternate: per_gallon / 26.8019, side: 0.15 }
}

/// Heat of the heat pump and fuel of the furnace, kWh, at a propane price: 2,000 h of 3 kW at COP 3.5,
/// 1,500 h of 5 kW at 2.5, 500 h of 8 kW at 1.8; the last 8 hours need nothing.
fn three_loads(per_gallon: f64, by_hour: bool) -> (f64, f64, f64) {
    let hours = [vec![8.0; 2000], vec![0.0; 1500], vec![-12.0; 500], vec![20.0; 8]].concat();
    let machines = [heat_pump(10.0, &[(-12.0, 1.8), (0.0, 2.5), (8.0, 3.5)]), furnace(20.0, 0.95)];
    // By hour the true price, the mean far off; or the mean alone.
    let mean = worth(if by_hour { 100.0 } else { per_gallon });
    let mut plan = plan(&zone(0.0), on_cost(mean), &machines, &run(hours, None));
    if by_hour {
        let at = worth(per_gallon);
        plan.weigh(|fuel, _| if fuel == FuelId::ELECTRICITY { at.lead } else { at.alternate });
    }
    let outcomes = through(&plan, FuelLimits::none(), Trace::default()).outcomes;
    let sum = |of: fn(&winterledger::simulation::kernel::ZoneOutcome<f64>) -> f64| {
        outcomes.iter().map(of).sum::<f64>()
    };
    (sum(|o| o.heaters[0].heat), sum(|o| o.heaters[0].draw), sum(|o| o.heaters[1].draw))
}

#[test]
fn on_cost_each_hour_goes_to_the_cheaper_and_ties_stand_where_a_pencil_puts_them() {
    // Hand-worked: ties at 0.15/COP · 0.95 · 26.8019 = 1.091220, 1.527708 and 2.121817 $/gal; heat
    // pump alone 17,500 kWh for $1,040.47619; the furnace alone costs as much at $1.51385.
    for by_hour in [false, true] {
        for (per_gallon, heat) in [
            (1.091_219, 0.0),
            (1.091_221, 6000.0),
            (1.527_707, 6000.0),
            (1.527_709, 13_500.0),
            (2.121_816, 13_500.0),
            (2.121_818, 17_500.0),
        ] {
            let (found, _, fuel) = three_loads(per_gallon, by_hour);
            assert!((found - heat).abs() < 1e-6, "{per_gallon}: {found}");
            assert!((fuel * 0.95 - (17_500.0 - heat)).abs() < 1e-6, "{per_gallon}: {fuel}");
        }
    }
    let (_, drawn, _) = three_loads(10.0, true);
    assert!((drawn * 0.15 - 1_040.476_19).abs() < 5e-6, "{drawn}");
    let (_, _, fuel) = three_loads(0.5, true);
    assert!((fuel / 26.8019 * 1.513_85 - 1_040.476_19).abs() < 5e-3, "{fuel}");
}

#[test]
fn a_tie_goes_to_the_first() {
    // A kWh of heat: 0.5/2 = 0.25 of the heat pump, 0.25/1 of the furnace.
    let even = Worth { lead: 0.5, alternate: 0.25, side: 0.5 };
    let machines = [heat_pump(10.0, &[(0.0, 2.0)]), furnace(20.0, 1.0)];
    let plan = plan(&zone(0.0), on_cost(even), &machines, &run(vec![0.0; 24], None));
    for outcome in through(&plan, FuelLimits::none(), Trace::default()).outcomes {
        assert_eq!((outcome.heaters[0].heat, outcome.heaters[1].heat), (5.0, 0.0));
    }
}

#[test]
fn an_hour_that_the_cheaper_cannot_carry_is_shared_in_time() {
    // Need 8 kW at −12 °C. Hand-worked: the furnace (4 kW) is the cheaper and has a third of the
    // hour, the heat pump (10 kW) two thirds: 4/3 + 20/3 = 8. The other way round: the heat pump
    // (4 kW, cheaper) two thirds of it with a 16 kW furnace: 8/3 + 16/3 = 8.
    let cold = || run(vec![-12.0; 24], None);
    let trace = |machines: &[Machine], per_gallon, limits| {
        through(&plan(&zone(0.0), on_cost(worth(per_gallon)), machines, &cold()), limits, Trace::default())
    };
    let machines = [heat_pump(10.0, &[(-12.0, 1.8)]), furnace(4.0, 1.0)];
    for o in trace(&machines, 0.5, FuelLimits::none()).outcomes {
        assert!(
            (o.heaters[0].heat - 20.0 / 3.0).abs() < 1e-12 && (o.heaters[1].heat - 4.0 / 3.0).abs() < 1e-12
        );
        assert!((o.turn - 1.0 / 3.0).abs() < 1e-12 && (o.heat - 8.0).abs() < 1e-12);
    }
    // With half that fuel the heat pump takes over what is missing: 2/3 and 22/3.
    let limit = FuelLimit { fuel: propane(), left_kwh: f64::INFINITY, greatest_kw: 2.0 / 3.0 };
    for o in trace(&machines, 0.5, FuelLimits::of(vec![limit])).outcomes {
        assert!(
            (o.heaters[0].heat - 22.0 / 3.0).abs() < 1e-9 && (o.heaters[1].heat - 2.0 / 3.0).abs() < 1e-9
        );
    }
    // Without any fuel it has the hour.
    let none = FuelLimit { fuel: propane(), left_kwh: 0.0, greatest_kw: f64::INFINITY };
    for o in trace(&machines, 0.5, FuelLimits::of(vec![none])).outcomes {
        assert!((o.heaters[0].heat - 8.0).abs() < 1e-12 && o.heaters[1].draw == 0.0);
    }
    let machines = [heat_pump(4.0, &[(-12.0, 1.8)]), furnace(16.0, 1.0)];
    for o in trace(&machines, 10.0, FuelLimits::none()).outcomes {
        assert!((o.heaters[0].heat - 8.0 / 3.0).abs() < 1e-12 && (o.heat - 8.0).abs() < 1e-12);
    }
}

#[test]
fn below_its_lock_out_the_first_stays_off_even_where_it_is_the_cheaper() {
    let machines = [heat_pump(10.0, &[(-12.0, 1.8)]), furnace(4.0, 1.0)];
    let mut design = on_cost(worth(10.0));
    design.changeover.as_mut().unwrap().compressor_lockout_c = Some(-10.0);
    let plan = plan(&zone(0.0), design, &machines, &run(vec![-12.0; 24], None));
    for outcome in through(&plan, FuelLimits::none(), Trace::default()).outcomes {
        assert_eq!((outcome.heaters[0].heat, outcome.heaters[1].heat), (0.0, 4.0));
    }
}

#[test]
fn the_economic_balance_temperature_is_where_the_two_cost_the_same() {
    // Hand-worked: power 10/1.5 kW at −20 °C to 10/3.5 at 20 °C, on a line; it is 5 kW (COP 2) 17.5 K
    // above −20 °C. A kWh of heat then costs 0.2/2 = 0.1, as the furnace's 0.095/0.95.
    let machines = [heat_pump(10.0, &[(-20.0, 1.5), (20.0, 3.5)]), furnace(20.0, 0.95)];
    let at = |alternate| {
        let design = on_cost(Worth { lead: 0.2, alternate, side: 0.2 });
        economic_balance(&zone(0.0), &design, &machines, -20.0, FrostShares::default()).unwrap()
    };
    let EconomicBalance::Below(found) = at(0.095) else { panic!() };
    assert!((found + 2.5).abs() < 2e-3, "{found}");
    assert_eq!(at(0.001), EconomicBalance::Everywhere);
    assert_eq!(at(1.0), EconomicBalance::Nowhere);
    assert_eq!(
        economic_balance(&zone(0.0), &ZoneDesign::default(), &machines, -20.0, FrostShares::default()),
        None
    );
}

#[test]
fn a_job_changes_over_on_cost_and_says_where() {
    let key = "option.Heat pump and propane.zone.main.";
    let set = |text: String, (k, v): (&str, &str)| {
        winterledger::job::edit::set(&text, &format!("{key}{k}"), v).unwrap()
    };
    let text = text().replace("sharing = \"in_time\"                       # or \"whole_hour\"\n", "");
    let by_cost = [("changeover", "cost"), ("compressor_lockout", "-130 degF")].into_iter().fold(text, set);
    let by_cost = compare(&job(&by_cost, &[]), &chicago()).unwrap();
    let usual = compared(&[]);
    let cost = |c: &winterledger::comparison::Comparison| {
        c.options.iter().find(|o| o.design.name == "Heat pump and propane").unwrap().yearly_cost()
    };
    assert!(cost(&by_cost) < cost(&usual), "{} is not below {}", cost(&by_cost), cost(&usual));
    let said = |c: &winterledger::comparison::Comparison| {
        c.notes.iter().filter(|n| matches!(n, Note::EconomicBalance { .. })).count()
    };
    assert_eq!((said(&by_cost), said(&usual)), (1, 0));
}

/// What recovering hours got of the second heater, and other hours, kWh; and recovering hours.
#[derive(Default)]
struct Recovery {
    while_recovering: f64,
    other: f64,
    hours: usize,
}

impl Sink for Recovery {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let heat = record.outcome.heaters[1].heat;
        *(if record.recovering { &mut self.while_recovering } else { &mut self.other }) += heat;
        self.hours += usize::from(record.recovering);
    }
}

#[test]
fn staged_recovery_holds_strips_back_for_as_long_as_recovery_lasts() {
    let mut zone = zone(4.0);
    zone.heating.set_backs = vec![SetBack { from_minute: 1320, to_minute: 360, set_point_c: 16.0 }];
    let machines = [heat_pump(9.0, &[(-5.0, 2.0)]), strips(10.0)];
    let days = run(vec![-5.0; 20 * 24], None);
    let with = |staged_recovery, limits| {
        let design = ZoneDesign { heaters: vec![0, 1], staged_recovery, ..ZoneDesign::default() };
        through(&plan(&zone, design, &machines, &days), limits, Recovery::default())
    };
    let usual = with(false, FuelLimits::none());
    let staged = with(true, FuelLimits::none());
    assert!(usual.while_recovering > 50.0 && staged.while_recovering == 0.0);
    // Hand-worked: 3.2 kW of 9 kW are left at 20 °C and 4 K × 4 kWh/K are to be had: longer than 3 h, so
    // recovery lasts its longest on each of the 20 mornings and strips do the rest.
    assert_eq!(staged.hours, 3 * 20);
    assert!(staged.other > 0.0 && staged.other < usual.while_recovering);
    // A limit on some fuel takes another way through the hour.
    let limit = FuelLimit { fuel: propane(), left_kwh: 1.0, greatest_kw: 1.0 };
    let limited = with(true, FuelLimits::of(vec![limit]));
    assert_eq!((limited.while_recovering, limited.other), (0.0, staged.other));
}

/// Heat of one heater in hours warmer and not warmer than a limit, kWh.
struct Warmer {
    heater: usize,
    limit_c: f64,
    above: f64,
    below: f64,
}

impl Sink for Warmer {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        if record.zone == 0 {
            let heat = record.outcome.heaters[self.heater].heat;
            *(if record.outdoor_c > self.limit_c { &mut self.above } else { &mut self.below }) += heat;
        }
    }
}

#[test]
fn an_auxiliary_is_off_above_its_lock_out() {
    for (machine, option, heater) in [
        ("equipment.duct strips 15 kW", 0, 1),
        ("equipment.propane furnace", 2, 0),
        ("equipment.propane furnace", 3, 1),
    ] {
        let key = format!("{machine}.lockout_above");
        let night =
            ("house.zone.main.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"62 degF\" }]");
        let heats = |changes: &[(&str, &str)]| {
            let c = compared(changes);
            let limit_c = winterledger::units::fahrenheit_to_celsius(28.0);
            let sink = Warmer { heater, limit_c, above: 0.0, below: 0.0 };
            let sink = through(&plan_of(&c, option, &run_of(&c)), FuelLimits::none(), sink);
            (sink.above, sink.below)
        };
        let (free, locked) = (heats(&[night]), heats(&[night, (&key, "28 degF")]));
        assert!(free.0 > 0.0, "{machine} of option {option} has nothing to lose above its lock-out");
        assert!(locked.0 == 0.0 && locked.1 > 0.0, "{machine} of option {option}: {locked:?}");
    }
}

#[test]
fn equal_degree_days_with_other_cold_take_other_backup_heat() {
    // Chicago's December to February, and the same drawn towards its mean: as many degree-days (every day
    // stays below the base of 65 °F), less cold. Backup by the formula of the steady line, hour by hour.
    let c = compared(&[]);
    let winter: Vec<f64> = run_of(&c).dry_bulb_c[24 * 153..24 * 243].to_vec();
    let mean = winter.iter().sum::<f64>() / winter.len() as f64;
    let milder: Vec<f64> = winter.iter().map(|t| mean + 0.4 * (t - mean)).collect();
    const BASE_C: f64 = 33.0 / 1.8;
    let degree_days = |hours: &[f64]| {
        let days = hours.chunks(24).map(|day| BASE_C - day.iter().sum::<f64>() / 24.0);
        days.inspect(|k| assert!(*k > 0.0)).sum::<f64>()
    };
    assert!((degree_days(&winter) - degree_days(&milder)).abs() < 1e-6);
    let backup = |hours: &[f64]| {
        let machines = [heat_pump(8.0, &[(-40.0, 2.0), (20.0, 4.0)]), strips(20.0)];
        let design = ZoneDesign { heaters: vec![0, 1], ..ZoneDesign::default() };
        let run = run(hours.to_vec(), None);
        let plan = plan(&zone(0.0), design, &machines, &run);
        let sums = through(&plan, FuelLimits::none(), YearSums::new(&run.calendar, 1, 1));
        let by_formula: f64 = hours.iter().map(|t| (0.25 * (20.0 - t) - 8.0).max(0.0)).sum();
        assert!((sums.zones[0].backup_heat_kwh - by_formula).abs() < 1e-6);
        by_formula
    };
    let (cold, mild) = (backup(&winter), backup(&milder));
    assert!(cold > 50.0 && mild < 0.1 * cold, "{cold} {mild}");
}
