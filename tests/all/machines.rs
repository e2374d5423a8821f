//! Boilers, wall heaters with a pilot, stoves that are filled by hand, heads on one outdoor unit: hours
//! worked by hand.
//!
//! Start at the tests.

use crate::oracle_agrees::dice::Dice;
use winterledger::calendar::{Calendar, MonthDay, Stamp};
use winterledger::coldnight::failure::{FailedPart, groups};
use winterledger::equipment::combustion::furnace_row;
use winterledger::equipment::ground::{Ground, GroundLoop, Surface};
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::{Cooling, Heating, Machine, MachineKind, Pilot};
use winterledger::fuel::{FuelId, Fuels};
use winterledger::load::{CoolingNeed, Schedule, Zone};
use winterledger::series::Hourly;
use winterledger::simulation::advance::work_hour;
use winterledger::simulation::bins::bin_rows;
use winterledger::simulation::design::{Changeover, OptionDesign, ZoneDesign};
use winterledger::simulation::frost::FrostShares;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::Trace;
use winterledger::simulation::source::{day_of_year, heating_source_c};
use winterledger::simulation::state::FuelLimit;
use winterledger::simulation::sums::YearSums;
use winterledger::simulation::working::Step;
use winterledger::simulation::{EndUse, FuelLimits, OptionState, advance};
use winterledger::weather::{Bin, OutdoorRun};

/// A zone on the steady line: `loss·(20 − T)` kW.
pub(crate) fn steady(loss_kw_k: f64) -> Zone {
    Zone {
        name: String::new(),
        loss_kw_k,
        gains_kw: 0.0,
        heat_capacity_kwh_k: 0.0,
        indoor_c: 20.0,
        design_temperature_c: -20.0,
        balance_temperature_c: 20.0,
        heating: Schedule { set_point_c: 20.0, set_backs: Vec::new() },
        vent_c: 30.0,
        cooling: None,
        duct_efficiency: 1.0,
        duct_line: None,
    }
}

pub(crate) fn outdoors(hours: Vec<f64>) -> OutdoorRun {
    OutdoorRun {
        calendar: Calendar::of_one_year(2023, hours.len(), 0.0, None),
        dry_bulb_c: Hourly::new(hours).unwrap(),
        dew_point_c: None,
    }
}

pub(crate) fn fuel(id: &str) -> FuelId {
    Fuels::built_in().unwrap().find(id).unwrap()
}

/// A burner of so much input and efficiency.
fn burner(kind: MachineKind, id: &str, input_kw: f64, efficiency: f64, side_kw: f64) -> Machine {
    let map = PerformanceMap::new(vec![furnace_row(input_kw, efficiency, side_kw, 1.0)]).unwrap();
    Machine {
        heating: Some(Heating { fan_kw: side_kw, ..Heating::of(map) }),
        ..Machine::new("burner", kind, fuel(id))
    }
}

fn baseboard(kw: f64) -> Machine {
    let map = PerformanceMap::new(vec![furnace_row(kw, 1.0, 0.0, 1.0)]).unwrap();
    let heating = Some(Heating::of(map));
    Machine { heating, ..Machine::new("baseboard", MachineKind::Resistance, FuelId::ELECTRICITY) }
}

fn design(heaters: &[usize]) -> ZoneDesign {
    ZoneDesign { heaters: heaters.to_vec(), ..ZoneDesign::default() }
}

fn plan(zone: &Zone, heaters: &[usize], machines: &[Machine], run: &OutdoorRun) -> OptionPlan {
    let design = OptionDesign { zones: vec![design(heaters)], ..OptionDesign::default() };
    OptionPlan::new(&design, std::slice::from_ref(zone), machines, run)
}

fn trace(plan: &OptionPlan, limits: &mut FuelLimits) -> Trace {
    let mut trace = Trace::default();
    advance(plan, 0..plan.outdoor_c.len(), &mut OptionState::at_set_point(plan), limits, &mut trace);
    trace
}

#[test]
fn a_boiler_burns_its_heat_less_the_pumps_warmth_over_its_afue() {
    // Hand-worked: input 20 kW at AFUE 0.85 and a pump of 0.1 kW give 17.1 kW. At 0 °C the zone needs
    // 0.3·20 = 6 kW: the share of the hour is 6/17.1, the fuel 20·6/17.1, the pump 0.1·6/17.1.
    let machines = [burner(MachineKind::Boiler, "propane", 20.0, 0.85, 0.1)];
    let trace =
        trace(&plan(&steady(0.3), &[0], &machines, &outdoors(vec![0.0; 24])), &mut FuelLimits::none());
    let hour = trace.outcomes[0].heaters[0];
    assert!((hour.heat - 6.0).abs() < 1e-12);
    assert!((hour.draw - 20.0 * 6.0 / 17.1).abs() < 1e-12);
    assert!((hour.side - 0.1 * 6.0 / 17.1).abs() < 1e-12);
    assert!(!machines[0].heats_without_power(MonthDay::FIRST));
}

fn with_pilot(lit: Option<(MonthDay, MonthDay)>) -> Machine {
    let plain = burner(MachineKind::WallHeater, "propane", 10.0, 0.7, 0.0);
    let pilot = Some(Pilot { kw: 0.25, lit });
    Machine { heating: plain.heating.map(|h| Heating { pilot, ..h }), ..plain }
}

#[test]
fn a_standing_pilot_burns_what_its_heater_does_not() {
    // Hand-worked, need 0.1·(20 − T) kW, efficiency 0.7, pilot 0.25 kW: at 25 °C nothing is needed and
    // the pilot burns 0.25; at 19 °C 0.1/0.7 = 0.1429 is burned for heat and 0.25 in all; at 10 °C
    // 1/0.7 = 1.4286, the pilot being part of the flame.
    let machines = [with_pilot(None)];
    let run = outdoors([[25.0; 8], [19.0; 8], [10.0; 8]].concat());
    let plan = plan(&steady(0.1), &[0], &machines, &run);
    let trace = trace(&plan, &mut FuelLimits::none());
    let at = |h: usize| trace.outcomes[h].heaters[0];
    assert_eq!((at(0).heat, at(0).draw), (0.0, 0.25));
    assert!((at(8).heat - 0.1).abs() < 1e-12 && at(8).draw == 0.25);
    assert!((at(16).draw - 1.0 / 0.7).abs() < 1e-12);
    assert!(machines[0].heats_without_power(MonthDay::FIRST));
    assert!(!burner(MachineKind::WallHeater, "propane", 10.0, 0.7, 0.0).heats_without_power(MonthDay::FIRST));
    // What waits is standby: 8 hours of 0.25; the rest is space heating.
    let mut sums = YearSums::new(&run.calendar, Fuels::built_in().unwrap().count(), 1);
    advance(&plan, 0..24, &mut OptionState::at_set_point(&plan), &mut FuelLimits::none(), &mut sums);
    let of = |end_use| sums.energy.year(fuel("propane"), end_use);
    assert!((of(EndUse::Standby) - 2.0).abs() < 1e-12);
    assert!((of(EndUse::SpaceHeating) - 8.0 * (0.25 + 1.0 / 0.7)).abs() < 1e-9);
}

#[test]
fn a_pilot_is_out_on_the_days_the_job_says_and_where_the_tank_is_empty() {
    // A calendar of three days, turned by one: 2, 3 and 1 January. Lit on the 3rd only.
    let day = |day| MonthDay { month: 1, day };
    let run = outdoors(vec![25.0; 72]);
    let machines = [with_pilot(Some((day(3), day(3))))];
    let lit = trace(&plan(&steady(0.1), &[0], &machines, &run), &mut FuelLimits::none());
    let burned = |d: usize| lit.outcomes[24 * d..24 * (d + 1)].iter().map(|o| o.heaters[0].draw).sum::<f64>();
    assert_eq!((burned(0), burned(1), burned(2)), (0.0, 6.0, 0.0));
    let left = FuelLimit { fuel: fuel("propane"), left_kwh: 1.0, greatest_kw: 5.0 };
    let mut limits = FuelLimits::of(vec![left]);
    let dry = trace(&plan(&steady(0.1), &[0], &[with_pilot(None)], &run), &mut limits);
    let all: f64 = dry.outcomes.iter().map(|o| o.heaters[0].draw).sum();
    assert!((all - 1.0).abs() < 1e-12, "{all}");
}

#[test]
fn a_stove_burns_what_is_laid_in_each_day_and_what_comes_next_takes_over() {
    // Hand-worked: need 0.2·20 = 4 kW all day; the stove, 10 kW at 0.5, burns 8 kW for it. 60 kWh a day
    // last 7.5 hours: seven whole ones, in the eighth half the heat; baseboards give the rest.
    let stove = burner(MachineKind::WoodStove, "cord_wood", 10.0, 0.5, 0.0);
    assert!(stove.heats_without_power(MonthDay::FIRST));
    let machines = [Machine { daily_fuelling_kwh: Some(60.0), ..stove }, baseboard(5.0)];
    let run = outdoors(vec![0.0; 48]);
    let plan = plan(&steady(0.2), &[0, 1], &machines, &run);
    let trace = trace(&plan, &mut FuelLimits::none());
    for day in 0..2 {
        let at = |h: usize| trace.outcomes[24 * day + h];
        let stove = |h: usize| at(h).heaters[0].heat;
        assert!((0..7).all(|h| (stove(h) - 4.0).abs() < 1e-12));
        assert!((stove(7) - 2.0).abs() < 1e-12 && (at(7).heaters[1].heat - 2.0).abs() < 1e-12);
        assert!((8..24).all(|h| stove(h) == 0.0 && (at(h).heaters[1].heat - 4.0).abs() < 1e-12));
        let burned: f64 = (0..24).map(|h| at(h).heaters[0].draw).sum();
        assert!((burned - 60.0).abs() < 1e-9);
    }
}

#[test]
fn a_stove_resumed_at_midnight_or_at_noon_is_one_run() {
    let stove = burner(MachineKind::WoodStove, "cord_wood", 10.0, 0.5, 0.0);
    let machines = [Machine { daily_fuelling_kwh: Some(60.0), ..stove }, baseboard(1.0)];
    let zone = Zone { heat_capacity_kwh_k: 3.0, ..steady(0.2) };
    let run = outdoors((0..96).map(|h| f64::from(h % 17) - 8.0).collect());
    let plan = plan(&zone, &[0, 1], &machines, &run);
    let whole = trace(&plan, &mut FuelLimits::none());
    for cut in [24, 48, 60] {
        let (mut state, mut parts) = (OptionState::at_set_point(&plan), Trace::default());
        advance(&plan, 0..cut, &mut state, &mut FuelLimits::none(), &mut parts);
        let mut saved = state.clone();
        advance(&plan, cut..96, &mut saved, &mut FuelLimits::none(), &mut parts);
        assert_eq!(parts, whole, "cut at {cut}");
    }
}

#[test]
fn in_the_steady_cold_a_stove_gives_its_days_fuel_spread_over_the_day() {
    // Hand-worked: 60 kWh a day at 0.5 are 1.25 kW of the 4 kW needed.
    let stove = burner(MachineKind::WoodStove, "cord_wood", 10.0, 0.5, 0.0);
    let machines = [Machine { daily_fuelling_kwh: Some(60.0), ..stove }];
    let bin = Bin { temperature_c: 0.0, hours: 24.0 };
    let rows = bin_rows(&steady(0.2), &design(&[0]), &machines, &[bin], FrostShares::default());
    assert!((rows[0].heat_kw - 1.25).abs() < 1e-12);
    assert!((rows[0].first_draw_kw - 2.5).abs() < 1e-12);
}

#[test]
fn the_working_of_a_stoves_last_hour_says_what_its_fuel_allowed() {
    let stove = burner(MachineKind::WoodStove, "cord_wood", 10.0, 0.5, 0.0);
    let machines = [Machine { daily_fuelling_kwh: Some(60.0), ..stove }, baseboard(5.0)];
    let plan = plan(&steady(0.2), &[0, 1], &machines, &outdoors(vec![0.0; 48]));
    // As above: in hour 7 of a day half of the stove's heat is left, at the next midnight all of it.
    let share = |hour| {
        work_hour(&plan, 0, hour).unwrap().0.iter().find_map(|s| match s {
            Step::Fuelled { heater: 0, share, .. } => Some(*share),
            _ => None,
        })
    };
    assert!((share(7).unwrap() - 0.5).abs() < 1e-12);
    assert_eq!((share(8), share(24)), (Some(0.0), None));
}

/// The same output at every temperature that matters here, C_D 0.
fn flat(kind: MachineKind, greatest_kw: f64, cop: f64) -> Machine {
    let point = |capacity_kw| Point { capacity_kw, power_kw: capacity_kw / cop };
    let row = |outdoor_c| {
        let all = point(greatest_kw);
        MapRow { outdoor_c, least: all, rated: all, greatest: all }
    };
    let map = PerformanceMap::new(vec![row(-30.0), row(30.0)]).unwrap();
    Machine { heating: Some(Heating::of(map)), ..Machine::new("", kind, FuelId::ELECTRICITY) }
}

/// Two heads of 5 kW at COP 2.5 on a unit of 8 kW (places 0, 1, 2), and what stands behind the second.
fn multi(behind: Machine) -> Vec<Machine> {
    let head = Machine { outdoor_unit: Some(2), ..flat(MachineKind::HeatPump, 5.0, 2.5) };
    vec![head.clone(), head, flat(MachineKind::OutdoorUnit, 8.0, 1.0), behind]
}

fn two_zones(machines: &[Machine], changeover: Option<Changeover>, outdoor_c: f64) -> OptionPlan {
    let heads = vec![0, 1];
    let first = ZoneDesign { heads: heads.clone(), ..design(&[0]) };
    let second = ZoneDesign { heads, changeover, ..design(&[1, 3]) };
    let design = OptionDesign { zones: vec![first, second], ..OptionDesign::default() };
    OptionPlan::new(&design, &[steady(0.2), steady(0.3)], machines, &outdoors(vec![outdoor_c; 24]))
}

#[test]
fn heads_share_what_their_outdoor_unit_can_give_and_backup_adds_the_rest() {
    // Hand-worked at 0 °C: needs 4 and 6 kW, wishes 4 and 5, the unit's 8 are 8/9 of them: 3.5556 and
    // 4.4444 kW at COP 2.5; baseboards add 1.5556 in the second zone. At 10 °C 2 and 3 kW fit.
    let machines = multi(baseboard(5.0));
    let cold = trace(&two_zones(&machines, None, 0.0), &mut FuelLimits::none());
    let (one, two) = (cold.outcomes[0], cold.outcomes[1]);
    assert!((one.heat - 4.0 * 8.0 / 9.0).abs() < 1e-12 && one.need == 4.0);
    assert!((two.heaters[0].heat - 5.0 * 8.0 / 9.0).abs() < 1e-12);
    assert!((two.heaters[0].draw - two.heaters[0].heat / 2.5).abs() < 1e-12);
    assert!((two.heaters[1].heat - (6.0 - 40.0 / 9.0)).abs() < 1e-12);
    let mild = trace(&two_zones(&machines, None, 10.0), &mut FuelLimits::none());
    assert_eq!((mild.outcomes[0].heaters[0].heat, mild.outcomes[1].heaters[0].heat), (2.0, 3.0));
}

#[test]
fn a_furnace_takes_turns_with_a_head_whose_outdoor_unit_is_short() {
    // Hand-worked with a unit of 6 kW: the first head wishes 4 kW, the second 5 for 0.8 of the hour, the
    // furnace (10 kW) having 0.2 of it: 8 kWh. Each head is let have three quarters of its own: 3 and 3 kW.
    // Then the furnace has (6 − 3)/(10 − 3) of the hour.
    let mut machines = multi(burner(MachineKind::Furnace, "propane", 10.0, 1.0, 0.0));
    machines[2] = flat(MachineKind::OutdoorUnit, 6.0, 1.0);
    let changeover = Some(Changeover { compressor_lockout_c: None, whole_hour: false, on_cost: None });
    let run = trace(&two_zones(&machines, changeover, 0.0), &mut FuelLimits::none());
    let two = run.outcomes[1];
    assert!((two.heat - 6.0).abs() < 1e-12);
    assert!((two.turn - 3.0 / 7.0).abs() < 1e-12);
    assert!((run.outcomes[0].heat - 3.0).abs() < 1e-12);
}

#[test]
fn in_the_steady_cold_every_head_counts_with_its_share_of_the_unit() {
    // Hand-worked: 5 of 8 shared by two of 5 kW: 4 kW each, though the first asks for 4 and the second 6.
    let machines = multi(baseboard(5.0));
    let heads = vec![0, 1];
    let bin = Bin { temperature_c: 0.0, hours: 1.0 };
    let rows = bin_rows(
        &steady(0.3),
        &ZoneDesign { heads, ..design(&[1]) },
        &machines,
        &[bin],
        FrostShares::default(),
    );
    assert!((rows[0].heat_kw - 4.0).abs() < 1e-12 && (rows[0].capacity_kw - 4.0).abs() < 1e-12);
}

/// The two heads and their unit cool, too: 5, 5 and 7.2 kW of total cooling, heads at an EER of 3 kW/kW.
fn cooling_multi() -> Vec<Machine> {
    let mut machines = multi(baseboard(5.0));
    let cooling = |kw: f64, cop: f64| Cooling::of(flat(MachineKind::HeatPump, kw, cop).heating.unwrap().map);
    for head in &mut machines[..2] {
        head.cooling = Some(Cooling { sensible_heat_ratio: 0.75, ..cooling(5.0, 3.0) });
    }
    machines[2].cooling = Some(cooling(7.2, 1.0));
    machines
}

/// A zone that wants `kw_k` sensible kW for each kelvin above 20 °C, and no heat there.
fn cooled(kw_k: f64) -> Zone {
    let need = CoolingNeed {
        loss_kw_k: kw_k,
        gains_kw: kw_k * 4.0,
        balance_temperature_c: 20.0,
        set_point_c: 24.0,
        design_temperature_c: 35.0,
    };
    Zone { cooling: Some(need), ..steady(kw_k) }
}

fn cooled_by(head: usize) -> ZoneDesign {
    let all = vec![0, 1];
    ZoneDesign { heads: all.clone(), cooling_heads: all, cooler: Some(head), ..design(&[head]) }
}

#[test]
fn heads_share_the_cooling_that_their_outdoor_unit_can_give() {
    // Hand-worked at 30 °C: 3 and 4.5 kW sensible are 4 and 6 kW of total cooling at 0.75; wishes 4 and 5
    // of a unit of 7.2, so 0.8 of each: 3.2 and 4 kW, 2.4 and 3 kW sensible, drawing a third of the total.
    // At 25 °C 1.5 and 2.25 kW sensible are 2 and 3 kW, which fit.
    let option = OptionDesign { zones: vec![cooled_by(0), cooled_by(1)], ..OptionDesign::default() };
    let zones = [cooled(0.3), cooled(0.45)];
    let machines = cooling_multi();
    let run = |t| {
        let plan = OptionPlan::new(&option, &zones, &machines, &outdoors(vec![t; 24]));
        trace(&plan, &mut FuelLimits::none()).outcomes
    };
    let hot = run(30.0);
    for (zone, (total, sensible)) in [(0, (3.2, 2.4)), (1, (4.0, 3.0))] {
        assert!((hot[zone].cooler.heat - total).abs() < 1e-12, "{:?}", hot[zone].cooler);
        assert!((hot[zone].cooler.draw - total / 3.0).abs() < 1e-12);
        assert!((hot[zone].cooling - sensible).abs() < 1e-12);
    }
    let mild = run(25.0);
    assert!((mild[0].cooling - 1.5).abs() < 1e-12 && (mild[1].cooling - 2.25).abs() < 1e-12);
    // Alone in its option, a head has the unit to itself: 4 kW of its 5.
    let alone = OptionDesign { zones: vec![cooled_by(0)], ..OptionDesign::default() };
    let plan = OptionPlan::new(&alone, &zones[..1], &machines, &outdoors(vec![30.0; 24]));
    assert!((trace(&plan, &mut FuelLimits::none()).outcomes[0].cooling - 3.0).abs() < 1e-12);
    // Steady hours: 7.2 of 10 kW for each head, so 3.6, of which the first wants 4: 2.7 kW sensible.
    let bin = Bin { temperature_c: 30.0, hours: 1.0 };
    let rows = bin_rows(&zones[0], &cooled_by(0), &machines, &[bin], FrostShares::default());
    assert!((rows[0].cooling_kw - 2.7).abs() < 1e-12);
}

#[test]
fn a_head_fails_alone_and_an_outdoor_unit_with_all_its_heads() {
    let machines = multi(baseboard(5.0));
    let zones = vec![design(&[0]), design(&[1, 3])];
    let found = groups(&OptionDesign { zones, ..OptionDesign::default() }, &machines);
    let parts: Vec<_> = found.iter().map(|g| (g.part, g.machines.as_slice())).collect();
    let expected: [(FailedPart, &[usize]); 4] = [
        (FailedPart::Head, &[0]),
        (FailedPart::Head, &[1]),
        (FailedPart::ResistanceHeater, &[3]),
        (FailedPart::OutdoorUnit, &[0, 1]),
    ];
    assert_eq!(parts, expected);
}

/// A ground-source heat pump of 4 kW at 0 °C entering and 6 kW at 10 °C, COP 3 and 4, C_D 0, and its loop.
fn ground_source(depth_m: f64) -> Machine {
    let row = |outdoor_c, capacity_kw, cop| {
        let all = Point { capacity_kw, power_kw: capacity_kw / cop };
        MapRow { outdoor_c, least: all, rated: all, greatest: all }
    };
    let map = PerformanceMap::new(vec![row(0.0, 4.0, 3.0), row(10.0, 6.0, 4.0)]).unwrap();
    let surface = Surface { mean_c: 10.0, amplitude_k: 12.0, coldest_day: 15.5 };
    let ground = Ground { surface, depth_m, diffusivity_m2_day: 0.05 };
    Machine {
        heating: Some(Heating { fan_kw: 0.25, ..Heating::of(map) }),
        ground: Some(GroundLoop { ground, design_entering_c: 0.0, cooling_design_entering_c: None }),
        ..Machine::new("ground", MachineKind::HeatPump, FuelId::ELECTRICITY)
    }
}

#[test]
fn a_ground_loop_goes_by_the_ground_less_a_drawdown_with_the_load() {
    // Hand-worked, a deep bore: the ground stays at 10 °C, the design load at −20 °C is 0.2·40 = 8 kW, so
    // at 0 °C half of the 10 K are drawn down: 5 °C enter, 5 kW and a draw between 4/3 and 6/4:
    // 1.41667 kW. The need is 4 kW: 4/5 of the hour, the pump 0.25·4/5.
    let machines = [ground_source(500.0)];
    let run = trace(&plan(&steady(0.2), &[0], &machines, &outdoors(vec![0.0; 24])), &mut FuelLimits::none());
    let hour = run.outcomes[0].heaters[0];
    assert!((hour.heat - 4.0).abs() < 1e-12);
    assert!((hour.draw - (4.0 / 3.0 + 1.5) / 2.0 * 0.8).abs() < 1e-9, "{hour:?}");
    assert!((hour.side - 0.2).abs() < 1e-12);
    // At −22 °C the need is 8.4 kW, the loop brings 10 − 10.5 = −0.5 °C: 3.9 kW, at full output.
    let run =
        trace(&plan(&steady(0.2), &[0], &machines, &outdoors(vec![-22.0; 24])), &mut FuelLimits::none());
    assert!((run.outcomes[0].heat - 3.9).abs() < 1e-9);
}

#[test]
fn shallow_ground_lags_the_year_by_the_days_worked_by_hand() {
    // Hand-worked at 2 m and 0.05 m² a day: 0.4361 of 12 K are left, 48.20 days late: coldest on day 63.7.
    let ground = ground_source(2.0).ground.unwrap().ground;
    assert!((ground.coldest_c() - (10.0 - 12.0 * 0.4361)).abs() < 1e-3);
    let coldest =
        (0..3650).map(|d| f64::from(d) / 10.0).min_by(|a, b| ground.at(*a).total_cmp(&ground.at(*b)));
    assert!((coldest.unwrap() - 63.7).abs() < 0.051);
    // In the hours of a year: 1 March lies on day 59.5, 1 September on day 243.5.
    assert_eq!(day_of_year(Stamp { month: 3, day: 1, hour: 0, weekday: 0 }), 59.5);
    let (zone, machine) = (steady(0.2), ground_source(2.0));
    let at = |day| heating_source_c(&machine, &zone, 20.0, Some(day));
    assert!(at(59.5) < 5.0 && at(243.5) > 15.0, "no load, no drawdown: {} {}", at(59.5), at(243.5));
    // Steady hours and the coldest night go by the coldest ground.
    assert_eq!(heating_source_c(&machine, &zone, 20.0, None), ground.coldest_c());
    assert!((heating_source_c(&machine, &zone, -20.0, None)).abs() < 1e-12);
}

#[test]
fn the_surface_follows_the_months_of_the_air() {
    // Hand-worked: months 0, 2, 4, … 20, 10 have the mean 120/12, half a spread of 10 and January coldest.
    let means = [0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 10.0];
    let surface = Surface::of_monthly_means(&means);
    assert_eq!((surface.mean_c, surface.amplitude_k), (10.0, 10.0));
    assert!((surface.coldest_day - 365.0 / 24.0).abs() < 1e-12);
}

#[test]
fn no_hour_goes_beyond_an_outdoor_unit_nor_any_day_beyond_its_fuelling() {
    let mut dice = Dice::new(3);
    let (mut short, mut burned_out) = (0, 0);
    for _ in 0..40 {
        let daily = dice.real(20.0, 90.0);
        let stove = burner(MachineKind::WoodStove, "cord_wood", 12.0, 0.6, 0.0);
        let mut machines = multi(Machine { daily_fuelling_kwh: Some(daily), ..stove });
        let unit_kw = dice.real(4.0, 9.0);
        machines[2] = flat(MachineKind::OutdoorUnit, unit_kw, 1.0);
        let zones = [Zone { heat_capacity_kwh_k: dice.real(1.0, 8.0), ..steady(0.3) }, steady(0.35)];
        let heads = vec![0, 1];
        let designs = vec![
            ZoneDesign { heads: heads.clone(), ..design(&[0]) },
            ZoneDesign { heads, ..design(&[1, 3]) },
        ];
        let option = OptionDesign { zones: designs, ..OptionDesign::default() };
        let run = outdoors((0..120).map(|_| dice.real(-18.0, 15.0)).collect());
        let outcomes =
            trace(&OptionPlan::new(&option, &zones, &machines, &run), &mut FuelLimits::none()).outcomes;
        for day in outcomes.chunks(48) {
            for pair in day.chunks(2) {
                let heads = pair[0].heaters[0].heat + pair[1].heaters[0].heat;
                assert!(heads <= unit_kw * (1.0 + 1e-12), "{heads} of {unit_kw}");
                let reached: f64 = pair[1].heaters.iter().map(|o| o.heat).sum();
                assert!((reached - pair[1].heat).abs() < 1e-9 && reached <= pair[1].need + 1e-9);
                short += usize::from(heads > unit_kw * (1.0 - 1e-9));
            }
            let burned: f64 = day.iter().skip(1).step_by(2).map(|o| o.heaters[1].draw).sum();
            assert!(burned <= daily * (1.0 + 1e-12), "{burned} of {daily}");
            burned_out += usize::from(burned > daily * (1.0 - 1e-9));
        }
    }
    assert!(short > 100 && burned_out > 20, "no hard hours in it: {short}, {burned_out}");
}
