//! Ducts by their output hour by hour: low output loses more, and what is lost beside the share is lost
//! once, while air moves.
//!
//! The ducts are those of the worked example: 270 and 70 ft², R-6, 1,000 cfm, leaks 10 and 5 %, 20 °F
//! around them and 70 °F in the rooms. Start at [`zone`].

use crate::demo_job::{chicago, job, plan_of, run_of, text};
use winterledger::calendar::Calendar;
use winterledger::comparison::compare;
use winterledger::equipment::combustion::furnace_row;
use winterledger::equipment::map::{MapRow, PerformanceMap, Point};
use winterledger::equipment::{Heating, Machine, MachineKind};
use winterledger::fuel::FuelId;
use winterledger::load::ducts::SI_PER_US_R;
use winterledger::load::{Ducts, Schedule, Zone};
use winterledger::series::Hourly;
use winterledger::simulation::bins::bin_rows;
use winterledger::simulation::design::{OptionDesign, ZoneDesign};
use winterledger::simulation::frost::FrostShares;
use winterledger::simulation::plan::OptionPlan;
use winterledger::simulation::record::{Sink, Trace, ZoneRecord};
use winterledger::simulation::{FuelLimits, OptionState, advance};
use winterledger::units::{Airflow, Area, Quantity, btu_to_kwh, fahrenheit_to_celsius};
use winterledger::weather::{Bin, OutdoorRun};

/// The demonstration's main zone with such ducts around which it is as cold as outdoors.
pub(crate) fn leaky(text: &str) -> String {
    let ducts = "ducts = { supply_area = \"270 ft2\", return_area = \"70 ft2\", supply_r = 6, return_r = 6, \
                 airflow = \"1000 cfm\", supply_leak = 0.10, return_leak = 0.05 }";
    text.replace("duct_efficiency = 0.95", ducts)
}

fn ducts() -> Ducts {
    let area = |text| Area::parse(text).unwrap().base();
    Ducts {
        supply_area_m2: area("270 ft2"),
        return_area_m2: area("70 ft2"),
        supply_r: 6.0 * SI_PER_US_R,
        return_r: 6.0 * SI_PER_US_R,
        airflow_m3_s: Airflow::parse("1000 cfm").unwrap().base(),
        elevation_m: None,
        supply_leak: 0.10,
        return_leak: 0.05,
    }
}

/// Needs `need_kw` at 20 °F outdoors, and as much more as it is colder.
fn zone(need_kw: f64) -> Zone {
    let (room, cold) = (fahrenheit_to_celsius(70.0), fahrenheit_to_celsius(20.0));
    Zone {
        name: String::new(),
        loss_kw_k: need_kw / (room - cold),
        gains_kw: 0.0,
        heat_capacity_kwh_k: 0.0,
        indoor_c: room,
        design_temperature_c: cold,
        balance_temperature_c: room,
        heating: Schedule { set_point_c: room, set_backs: Vec::new() },
        vent_c: 25.0,
        cooling: None,
        duct_efficiency: 0.5,
        duct_line: Some(ducts().line_for(room, None)),
    }
}

/// 30 to 60 kBtu/h at any temperature for 2 to 5 kW.
fn heat_pump() -> Machine {
    let point = |kbtuh: f64, power_kw| Point { capacity_kw: btu_to_kwh(1000.0 * kbtuh), power_kw };
    let row = |outdoor_c| MapRow {
        outdoor_c,
        least: point(30.0, 2.0),
        rated: point(60.0, 5.0),
        greatest: point(60.0, 5.0),
    };
    let map = PerformanceMap::new(vec![row(-30.0), row(20.0)]).unwrap();
    let heating = Heating { cycling_loss: 0.25, ..Heating::of(map) };
    Machine {
        ducted: true,
        heating: Some(heating),
        ..Machine::new("", MachineKind::HeatPump, FuelId::ELECTRICITY)
    }
}

fn strips(kw: f64) -> Machine {
    let map = PerformanceMap::new(vec![furnace_row(kw, 1.0, 0.0, 1.0)]).unwrap();
    let heating = Some(Heating::of(map));
    Machine { ducted: true, heating, ..Machine::new("", MachineKind::Resistance, FuelId::ELECTRICITY) }
}

/// One hour at 20 °F.
fn hour(zone: &Zone, machines: &[Machine]) -> winterledger::simulation::kernel::ZoneOutcome<f64> {
    let run = OutdoorRun {
        calendar: Calendar::of_one_year(2023, 1, 0.0, None),
        dry_bulb_c: Hourly::new(vec![fahrenheit_to_celsius(20.0); 24]).unwrap(),
        dew_point_c: None,
    };
    let design = ZoneDesign { heaters: (0..machines.len()).collect(), ..ZoneDesign::default() };
    let design = OptionDesign { zones: vec![design], ..OptionDesign::default() };
    let plan = OptionPlan::new(&design, std::slice::from_ref(zone), machines, &run);
    let mut trace = Trace::default();
    let mut state = OptionState::at_set_point(&plan);
    advance(&plan, 0..1, &mut state, &mut FuelLimits::none(), &mut trace);
    trace.outcomes[0]
}

fn kbtuh(kw: f64) -> f64 {
    kw / btu_to_kwh(1000.0)
}

#[test]
fn an_hour_of_low_output_loses_more_of_it() {
    // Hand-worked in the design's checks: at 60 kBtu/h 0.7834 arrive, at 30 kBtu/h 0.7036.
    for (output, kept, draw) in [(60.0, 0.7834, 5.0), (30.0, 0.7036, 2.0)] {
        let at = hour(&zone(btu_to_kwh(1000.0 * output * kept)), &[heat_pump()]);
        assert!((kbtuh(at.heaters[0].heat) - output).abs() < 0.005, "{}", kbtuh(at.heaters[0].heat));
        assert!((kbtuh(at.in_room[0]) - output * kept).abs() < 0.005);
        assert!((at.heaters[0].draw - draw).abs() < 0.002, "{}", at.heaters[0].draw);
        assert!((at.heat - at.need).abs() < 0.005);
    }
    // Half of what arrives of 30 kBtu/h: half of the hour at 30, which draws 0.5·2/(1 − 0.25·0.5).
    let half = hour(&zone(btu_to_kwh(1000.0 * 30.0 * 0.7036 / 2.0)), &[heat_pump()]);
    assert!((kbtuh(half.heaters[0].heat) - 15.0).abs() < 0.005);
    assert!((half.heaters[0].draw - 1.0 / 0.875).abs() < 0.002);
}

#[test]
fn strips_that_add_to_a_heat_pump_lose_their_share_alone_and_without_it_all() {
    // Hand-worked: 0.9·exp(−270/6480) = 0.86327 of each kW arrives. (0.86327 − 0.7834)·60 = 4.792 kBtu/h
    // go beside it. The heat pump brings 47.004 kBtu/h; of 57.004 the strips lack 10: 10/0.86327 = 11.584.
    let all = zone(btu_to_kwh(57_004.0));
    let with = hour(&all, &[heat_pump(), strips(20.0)]);
    assert!((kbtuh(with.heaters[1].heat) - 11.584).abs() < 0.01, "{}", kbtuh(with.heaters[1].heat));
    // Alone they give (57.004 + 4.792)/0.86327 = 71.584, all the hour if that is what they can.
    let alone = hour(&all, &[strips(btu_to_kwh(71_584.0))]);
    assert!((kbtuh(alone.in_room[0]) - 57.004).abs() < 0.01, "{}", kbtuh(alone.in_room[0]));
}

#[test]
fn the_bins_go_by_output_as_the_hours_do() {
    for need in [10_000.0, 21_000.0, 40_000.0, 57_004.0, 80_000.0] {
        let (zone, machines) = (zone(btu_to_kwh(need)), [heat_pump(), strips(5.0)]);
        let design = ZoneDesign { heaters: vec![0, 1], ..ZoneDesign::default() };
        let bin = Bin { temperature_c: fahrenheit_to_celsius(20.0), hours: 1.0 };
        let row = &bin_rows(&zone, &design, &machines, &[bin], FrostShares::default())[0];
        let at = hour(&zone, &machines);
        for (ours, theirs) in [
            (row.heat_kw, at.heat),
            (row.first_heat_kw, at.heaters[0].heat),
            (row.first_in_room_kw, at.in_room[0]),
            (row.backup_kw, at.in_room[1]),
            (row.first_draw_kw, at.heaters[0].draw),
        ] {
            assert!((ours - theirs).abs() < 1e-12, "{need}: {ours} {theirs}");
        }
        // 60 kBtu/h of which 0.7834 arrive.
        assert!((kbtuh(row.capacity_in_room_kw) - 47.004).abs() < 0.005);
    }
}

/// Holds every hour's heat in the room to the published form at the output while the machine runs.
struct ByForm<'a> {
    ducts: &'a Ducts,
    ran: usize,
    cycled: usize,
}

impl Sink for ByForm<'_> {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let first = &record.outcome.heaters[0];
        if record.zone != 0 || first.heat <= 0.0 {
            return;
        }
        let output = first.heat / first.running;
        let arriving = self.ducts.efficiency(output, fahrenheit_to_celsius(70.0), record.outdoor_c);
        let expected = first.heat * arriving;
        // Where the form would leave less than 0.3, the machine runs harder for less time.
        assert!(arriving > 0.3 - 1e-9, "{arriving} of {output} kW");
        assert!((record.outcome.in_room[0] - expected).abs() < 1e-9);
        self.ran += 1;
        self.cycled += usize::from(first.running < 1.0);
    }
}

#[test]
fn every_hour_of_a_year_keeps_what_the_form_says_of_its_output() {
    let c = compare(&job(&leaky(&text()), &[]), &chicago()).unwrap();
    let plan = plan_of(&c, 0, &run_of(&c));
    let ducts = Ducts { elevation_m: c.site.elevation_m, ..ducts() };
    let mut form = ByForm { ducts: &ducts, ran: 0, cycled: 0 };
    let mut state = OptionState::at_set_point(&plan);
    advance(&plan, 0..plan.outdoor_c.len(), &mut state, &mut FuelLimits::none(), &mut form);
    assert!(form.ran > 4000 && form.cycled > 500, "{} {}", form.ran, form.cycled);
}
