//! What tempers the air while a heat pump defrosts: strips of a bank or a furnace, by hours and by bins.
//!
//! Start at [`day`].

use crate::controls::{furnace, machine, on_cost, plan, propane, run, strips, through, zone};
use crate::demo_job::{chicago, compared, job, text};
use winterledger::comparison::oddity::Oddity;
use winterledger::comparison::{Note, compare};
use winterledger::equipment::map::{MapRow, Point};
use winterledger::equipment::{Machine, MachineKind};
use winterledger::fuel::{FuelId, Fuels};
use winterledger::load::Zone;
use winterledger::report::figures::Measure;
use winterledger::simulation::bins::bin_rows;
use winterledger::simulation::design::{Changeover, DefrostAux, ZoneDesign};
use winterledger::simulation::frost::FrostShares;
use winterledger::simulation::kernel::Worth;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::Trace;
use winterledger::simulation::state::FuelLimit;
use winterledger::simulation::sums::YearSums;
use winterledger::simulation::tempering::Tempering;
use winterledger::simulation::{EndUse, FuelLimits};
use winterledger::weather::Bin;

/// Least 4 kW for 1 kW, greatest 10 kW for 4 kW, C_D 0.25, at every temperature of the test.
fn turning_down() -> Machine {
    let row = |outdoor_c| {
        let greatest = Point { capacity_kw: 10.0, power_kw: 4.0 };
        let least = Point { capacity_kw: 4.0, power_kw: 1.0 };
        MapRow { outdoor_c, least, rated: greatest, greatest }
    };
    machine(MachineKind::HeatPump, FuelId::ELECTRICITY, vec![row(-20.0), row(20.0)], 0.25)
}

const AUX: DefrostAux = DefrostAux { kw: 5.0, share_of_running: 6.0 / 90.0, bank: Some(1) };

/// A day at one temperature: energy for space heating and for backup, kWh, and backup heat.
fn day(outdoor_c: f64, dew_point_c: Option<f64>, gains_kw: f64) -> (f64, f64, f64) {
    let zone = Zone { gains_kw, ..zone(0.0) };
    let machines = [turning_down(), strips(10.0)];
    let design = ZoneDesign { heaters: vec![0, 1], defrost_aux: Some(AUX), ..ZoneDesign::default() };
    let hours = run(vec![outdoor_c; 24], dew_point_c.map(|dew| vec![dew; 24]));
    let plan = plan(&zone, design, &machines, &hours);
    let sums = through(&plan, FuelLimits::none(), YearSums::new(&hours.calendar, 1, 1));
    let of = |end_use| sums.energy.year(FuelId::ELECTRICITY, end_use) / 24.0;
    let zone = &sums.zones[0];
    assert!((zone.heat_kwh - zone.need_kwh).abs() < 1e-9, "{} of {}", zone.heat_kwh, zone.need_kwh);
    // The heat pump carries each of these days alone: all backup only tempers.
    let apart = zone.backup_heat_kwh - zone.tempering_heat_kwh;
    assert!(apart.abs() < 1e-9 && zone.tempering_hours == zone.backup_hours, "{apart}");
    (of(EndUse::SpaceHeating), of(EndUse::BackupHeat), zone.backup_heat_kwh / 24.0)
}

#[test]
fn strips_temper_the_air_while_a_heat_pump_defrosts_and_count_as_backup_heat() {
    let near = |found: (f64, f64, f64), (heating, backup): (f64, f64)| {
        let (a, b, c) = found;
        assert!(
            (a - heating).abs() < 1e-9 && (b - backup).abs() < 1e-9 && (c - backup).abs() < 1e-9,
            "{found:?}"
        );
    };
    // Hand-worked. 6 kW wanted at 0 °C with a gain of −1 kW; strips 5·6/90 = 1/3 kW all through; the
    // heat pump 5.6667 kW for 1 + 0.5·1.6667 = 1.83333 kW.
    let third = 1.0 / 3.0;
    near(day(0.0, Some(-2.0), -1.0), (1.0 + 0.5 * (5.0 + 2.0 * third - 4.0), third));
    // Without a dew point the air counts as moist.
    near(day(0.0, None, -1.0), (1.0 + 0.5 * (5.0 + 2.0 * third - 4.0), third));
    // More than 5 K dry, and colder than 25 °F: none.
    near(day(0.0, Some(-5.5), -1.0), (2.0, 0.0));
    near(day(-4.0, Some(-4.0), 0.0), (2.0, 0.0));
    // 2 kW wanted: it runs 2/(4 + 1/3) of the hour, 0.461538; PLF 1 − 0.25·0.538462 = 0.865385; draws
    // 0.533333 kW, strips 0.153846 kW.
    near(day(0.0, Some(0.0), 3.0), (0.461_538_461_5 / 0.865_384_615_4, 0.153_846_153_8));
}

#[test]
fn a_furnace_that_tempers_the_air_burns_for_it_and_the_heat_pump_gives_less() {
    // Hand-worked: 12 kW of 15 kW burnt, for 6 of each 90 minutes: 0.8 of 1 kW. Of 6 kW wanted at 0 °C with
    // a gain of −1 kW the heat pump gives 5.2 for 1 + 0.5·1.2 = 1.6 kW. Without propane it gives all for 2.
    let tempering =
        Tempering { place: 1, share_of_running: 6.0 / 90.0, heat_kw: 0.8, draw_kw: 1.0, side_kw: 0.0 };
    let zone = Zone { gains_kw: -1.0, ..zone(0.0) };
    let machines = [turning_down(), furnace(15.0, 0.8)];
    let changeover = Changeover { compressor_lockout_c: None, whole_hour: false, on_cost: None };
    let design = ZoneDesign {
        heaters: vec![0, 1],
        changeover: Some(changeover),
        tempering: Some(tempering),
        ..ZoneDesign::default()
    };
    let hours = run(vec![0.0; 24], None);
    let plan = plan(&zone, design.clone(), &machines, &hours);
    let fuels = Fuels::built_in().unwrap().count();
    let day = |limits| {
        let sums = through(&plan, limits, YearSums::new(&hours.calendar, fuels, 1));
        let used = |fuel| sums.energy.year(fuel, EndUse::SpaceHeating) / 24.0;
        let zone = &sums.zones[0];
        assert!((zone.heat_kwh - 144.0).abs() < 1e-9, "{}", zone.heat_kwh);
        (used(FuelId::ELECTRICITY), used(propane()), zone.heater_heat_kwh[0] / 24.0)
    };
    let near = |(a, b, c): (f64, f64, f64), (x, y, z): (f64, f64, f64)| {
        assert!((a - x).abs() < 1e-9 && (b - y).abs() < 1e-9 && (c - z).abs() < 1e-9, "{a} {b} {c}");
    };
    near(day(FuelLimits::none()), (1.6, 1.0, 5.2));
    let dry = FuelLimit { fuel: propane(), left_kwh: 0.0, greatest_kw: f64::INFINITY };
    near(day(FuelLimits::of(vec![dry])), (2.0, 0.0, 6.0));
    let row = &bin_rows(
        &zone,
        &design,
        &machines,
        &[Bin { temperature_c: 0.0, hours: 1.0 }],
        FrostShares::default(),
    )[0];
    assert!((row.first_heat_kw - 5.2).abs() < 1e-9 && (row.first_draw_kw - 1.6).abs() < 1e-9);
    assert!((row.capacity_kw - 10.0).abs() < 1e-9 && (row.heat_kw - 6.0).abs() < 1e-9);
}

#[test]
fn a_furnace_that_tempers_without_taking_turns_gives_no_more_than_it_can() {
    // Hand-worked: at 0 °C with a gain of −30 kW, 35 kW are wanted. The heat pump gives 10 kW, the strips before
    // the furnace 8. The furnace of 12 kW tempers for 6 of each 90 minutes, 0.8 kW, and has 14/15 of its hour for
    // the room, 11.2 kW: 12 kW from 15 kW burnt, and its blower's 0.5 kW once, not 1/15 more.
    let zone = Zone { gains_kw: -30.0, ..zone(0.0) };
    let tempering =
        Tempering { place: 2, share_of_running: 6.0 / 90.0, heat_kw: 0.8, draw_kw: 1.0, side_kw: 0.5 / 15.0 };
    let mut burner = furnace(15.0, 0.8);
    burner.heating.as_mut().unwrap().fan_kw = 0.5;
    let machines = [turning_down(), strips(8.0), burner];
    let design = ZoneDesign { heaters: vec![0, 1, 2], tempering: Some(tempering), ..ZoneDesign::default() };
    let given = |plan: &OptionPlan| {
        let first = through(plan, FuelLimits::none(), Trace::default()).outcomes[0];
        let furnace = first.heaters[2];
        [first.heat, furnace.heat, furnace.draw, furnace.side, furnace.running]
    };
    let near = |found: [f64; 5], wanted: [f64; 5]| {
        let apart = found.iter().zip(wanted).any(|(a, b)| (a - b).abs() > 1e-9);
        assert!(!apart, "{found:?} {wanted:?}");
    };
    let moist = plan(&zone, design.clone(), &machines, &run(vec![0.0; 24], None));
    near(given(&moist), [30.0, 12.0, 15.0, 0.5, 1.0]);
    // Too dry for frost, and with the heat pump broken, all of its hour is the room's.
    let dry = plan(&zone, design.clone(), &machines, &run(vec![0.0; 24], Some(vec![-6.0; 24])));
    near(given(&dry), [30.0, 12.0, 15.0, 0.5, 1.0]);
    near(given(&moist.without(&[0])), [20.0, 12.0, 15.0, 0.5, 1.0]);
    let bin = Bin { temperature_c: 0.0, hours: 1.0 };
    let row = &bin_rows(&zone, &design, &machines, &[bin], FrostShares::default())[0];
    assert!((row.heat_kw - 30.0).abs() < 1e-9, "{}", row.heat_kw);
    let burnt: f64 = row.energy.iter().filter(|(fuel, ..)| *fuel == propane()).map(|e| e.2).sum();
    assert!((burnt - 15.0).abs() < 1e-9, "{burnt}");
}

#[test]
fn on_cost_a_heat_pump_pays_for_the_furnace_that_tempers_its_air() {
    // Hand-worked, 6 kW wanted at 0.20 for electricity. Heat pump alone 2 kW: 0.40. With 0.8 kW from 1 kW of
    // fuel at 0.06: 1.6·0.20 + 0.06 = 0.38; the furnace 7.5·0.06 = 0.45 for 6 kW. At 0.05: 0.37 and 0.375; at
    // 0.045: 0.365 and 0.3375, so the furnace has the hour.
    let tempering =
        Tempering { place: 1, share_of_running: 6.0 / 90.0, heat_kw: 0.8, draw_kw: 1.0, side_kw: 0.0 };
    let zone = Zone { gains_kw: -1.0, ..zone(0.0) };
    let machines = [turning_down(), furnace(15.0, 0.8)];
    for (fuel, pump_has_it) in [(0.06, true), (0.05, true), (0.0495, true), (0.049, false), (0.045, false)] {
        let worth = Worth { lead: 0.20, alternate: fuel, side: 0.20 };
        let design = ZoneDesign { tempering: Some(tempering), ..on_cost(worth) };
        let plan = plan(&zone, design, &machines, &run(vec![0.0; 24], None));
        let first = through(&plan, FuelLimits::none(), Trace::default()).outcomes[0];
        assert_eq!(first.heaters[0].heat > 0.0, pump_has_it, "{fuel}");
        if pump_has_it {
            assert!((first.heaters[0].side).abs() < 1e-12 && (first.heaters[1].draw - 1.0).abs() < 1e-12);
        }
    }
}

#[test]
fn bins_count_the_strips_of_defrosting_too() {
    let zone = Zone { gains_kw: -1.0, ..zone(0.0) };
    let machines = [turning_down(), strips(10.0)];
    let design = ZoneDesign { heaters: vec![0, 1], defrost_aux: Some(AUX), ..ZoneDesign::default() };
    let rows = bin_rows(
        &zone,
        &design,
        &machines,
        &[Bin { temperature_c: 0.0, hours: 24.0 }],
        FrostShares::default(),
    );
    let of = |wanted| -> f64 { rows[0].energy.iter().filter(|(_, u, _)| *u == wanted).map(|e| e.2).sum() };
    // As by hours, hand-worked there.
    assert!((of(EndUse::SpaceHeating) / 24.0 - 1.833_333_333).abs() < 1e-8);
    assert!(
        (of(EndUse::BackupHeat) / 24.0 - 1.0 / 3.0).abs() < 1e-9
            && (rows[0].backup_kw - 1.0 / 3.0).abs() < 1e-9
    );
    assert_eq!(rows[0].capacity_kw, 10.0);
}

#[test]
fn a_bank_that_tempers_has_so_much_less_for_the_room() {
    // Hand-worked: at 0 °C with a gain of −30 kW, 35 kW are wanted. The heat pump gives its 10 kW and strips
    // 5·6/90 = 1/3 kW in its air; of a bank of 10 kW 9 2/3 are left: 20 kW in all, not 20 1/3. 6 K dry, and
    // with the heat pump broken or locked out, the bank has its 10 kW.
    let zone = Zone { gains_kw: -30.0, ..zone(0.0) };
    let machines = [turning_down(), strips(10.0)];
    let design = ZoneDesign { heaters: vec![0, 1], defrost_aux: Some(AUX), ..ZoneDesign::default() };
    let given = |plan: &OptionPlan| {
        let first = through(plan, FuelLimits::none(), Trace::default()).outcomes[0];
        (first.heat, first.heaters[1].draw)
    };
    let near = |(heat, bank): (f64, f64), (a, b): (f64, f64)| {
        assert!((heat - a).abs() < 1e-9 && (bank - b).abs() < 1e-9, "{heat} {bank}");
    };
    let moist = plan(&zone, design.clone(), &machines, &run(vec![0.0; 24], None));
    near(given(&moist), (20.0, 10.0 - 1.0 / 3.0));
    near(given(&moist.part(&(0..24))), (20.0, 10.0 - 1.0 / 3.0));
    near(given(&moist.without(&[0])), (10.0, 10.0));
    near(given(&moist.without(&[1])), (10.0 + 1.0 / 3.0, 0.0));
    let dry = plan(&zone, design.clone(), &machines, &run(vec![0.0; 24], Some(vec![-6.0; 24])));
    near(given(&dry), (20.0, 10.0));
    let row = |frost| bin_rows(&zone, &design, &machines, &[Bin { temperature_c: 0.0, hours: 1.0 }], frost);
    assert!((row(FrostShares::default())[0].heat_kw - 20.0).abs() < 1e-9);
    // Strips of their own take nothing off the bank.
    let own = DefrostAux { bank: None, ..AUX };
    let design = ZoneDesign { defrost_aux: Some(own), ..design };
    near(given(&plan(&zone, design, &machines, &run(vec![0.0; 24], None))), (20.0 + 1.0 / 3.0, 10.0));
}

#[test]
fn bins_temper_in_the_share_of_their_hours_that_is_frosty() {
    let zone = Zone { gains_kw: -1.0, ..zone(0.0) };
    let machines = [turning_down(), strips(10.0)];
    let design = ZoneDesign { heaters: vec![0, 1], defrost_aux: Some(AUX), ..ZoneDesign::default() };
    // Of four hours of the bin of 32 °F one is moist. Hand-worked: 1/3 kW of strips in a quarter of the hours
    // is 1/12 kW on their mean; the heat pump gives 5 11/12 of the 6 kW for 1 + 0.5·(1 11/12) = 1 23/24 kW. By
    // hours: three of 2 kW and one of 1 5/6, 23.5/3 in all, a mean of 1 23/24: the same.
    let dew = [-2.0, -6.0, -7.0, -8.0];
    let frost = FrostShares::of(&[0.0; 4], &dew);
    let row = &bin_rows(&zone, &design, &machines, &[Bin { temperature_c: 0.0, hours: 4.0 }], frost)[0];
    assert!((row.backup_kw - 1.0 / 12.0).abs() < 1e-12 && (row.first_draw_kw - 47.0 / 24.0).abs() < 1e-12);
    let hours = run([0.0; 4].repeat(6), Some(dew.repeat(6)));
    let plan = plan(&zone, design.clone(), &machines, &hours);
    let sums = through(&plan, FuelLimits::none(), YearSums::new(&hours.calendar, 1, 1));
    let of = |end_use| sums.energy.year(FuelId::ELECTRICITY, end_use) / 24.0;
    assert!((of(EndUse::SpaceHeating) - 47.0 / 24.0).abs() < 1e-9, "{}", of(EndUse::SpaceHeating));
    assert!((of(EndUse::BackupHeat) - 1.0 / 12.0).abs() < 1e-9);
    // A furnace likewise: a quarter of its 0.8 kW.
    let tempering =
        Tempering { place: 1, share_of_running: 6.0 / 90.0, heat_kw: 0.8, draw_kw: 1.0, side_kw: 0.0 };
    let machines = [turning_down(), furnace(15.0, 0.8)];
    let changeover = Some(Changeover { compressor_lockout_c: None, whole_hour: false, on_cost: None });
    let design = ZoneDesign { tempering: Some(tempering), changeover, defrost_aux: None, ..design };
    let row = &bin_rows(&zone, &design, &machines, &[Bin { temperature_c: 0.0, hours: 4.0 }], frost)[0];
    assert!((row.first_heat_kw - 5.8).abs() < 1e-12, "{}", row.first_heat_kw);
}

#[test]
fn without_the_key_a_ducted_heat_pump_has_the_first_stage_of_its_strips() {
    let bare = text().lines().filter(|line| !line.starts_with("defrost_aux")).collect::<Vec<_>>().join("\n");
    let c = compare(&job(&bare, &[]), &chicago()).unwrap();
    let own = compared(&[]);
    let noted = |c: &winterledger::comparison::Comparison| {
        c.assumptions.0.iter().filter(|a| a.key == "equipment.main heat pump.defrost_aux").count()
    };
    // Once for the strips, once for the furnace.
    assert_eq!((noted(&c), noted(&own)), (2, 0));
    // Without the key the furnace behind the heat pump of the fourth option tempers too; "none" is said.
    let remarked = |c: &winterledger::comparison::Comparison| {
        c.notes.contains(&Note::Oddity(Oddity::DefrostHeatNotCounted))
    };
    assert!(!remarked(&c) && remarked(&own));
    let tempers = |c: &winterledger::comparison::Comparison| c.options[3].design.zones[0].tempering;
    assert!(tempers(&own).is_none() && tempers(&c).is_some_and(|t| t.place == 1 && t.draw_kw > 0.0));
    let aux = |place: usize| c.options[place].design.zones[0].defrost_aux.map(|a| a.kw);
    // Typed in the job: 5 kW; no strips behind it in the second option; ductless in the wing.
    assert!((aux(0).unwrap() - 5.0).abs() < 1e-12 && aux(1).is_none());
    assert!(c.options[0].design.zones[1].defrost_aux.is_none());
    assert!(c.options[0].backup_heat_kwh() > own.options[0].backup_heat_kwh() + 100.0);
    // What only tempers is told apart: nothing of it where the key says "none".
    let (tempered, plain) = (&c.options[0].zones[0].sums, &own.options[0].zones[0].sums);
    assert!(tempered.tempering_heat_kwh > 100.0 && tempered.tempering_heat_kwh < tempered.backup_heat_kwh);
    assert_eq!((plain.tempering_heat_kwh, plain.tempering_hours), (0.0, 0));
    let remark = |c: &winterledger::comparison::Comparison| {
        winterledger::report::warmth::cold_night(c, Measure(c.units)).remark
    };
    let temper = "temper the air while a heat pump defrosts: \u{201c}Heat pumps with strips\u{201d}, main: ";
    assert!(remark(&c).unwrap().contains(temper) && !remark(&own).unwrap().contains("temper the air"));
    assert_eq!(c.options[1].yearly_cost(), own.options[1].yearly_cost());
}
