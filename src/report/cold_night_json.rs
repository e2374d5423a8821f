//! An option's coldest night as it stands in the JSON. Units are in the field names.
//!
//! Start at `document`.

use super::wording;
use crate::coldnight::failure::{FailureRun, Failures};
use crate::coldnight::first_machine::ShareAt;
use crate::coldnight::heat_off::Fall;
use crate::coldnight::power_out::Generator;
use crate::coldnight::strips::{Strips, StripsAt};
use crate::coldnight::supply_air::{SUPPLY_AIR_AT_F, SupplyAir};
use crate::coldnight::{ZoneColdNight, power_out::PowerOut};
use crate::comparison::{Comparison, OptionResult};
use crate::units::fahrenheit_to_celsius;
use schemars::JsonSchema;
use serde::Serialize;

/// The coldest night of one option.
#[derive(Serialize, JsonSchema)]
pub(super) struct ColdNightDocument<'a> {
    zones: Vec<ZoneDocument<'a>>,
    installed_strips: StripsDocument,
    panel: String,
    failures: Option<FailuresDocument<'a>>,
    power_out: PowerOutDocument,
}

#[derive(Serialize, JsonSchema)]
struct ZoneDocument<'a> {
    zone: &'a str,
    #[serde(rename = "design_load_kW")]
    design_load_kw: f64,
    first_machine_shares: Vec<ShareDocument>,
    #[serde(rename = "capacity_at_17degF_over_47degF")]
    retention_17f: Option<f64>,
    #[serde(rename = "capacity_at_5degF_over_47degF")]
    retention_5f: Option<f64>,
    installed_strips: StripsDocument,
    strips_at_design: Option<StripsAtDocument>,
    strips_at_extreme_low: Option<StripsAtDocument>,
    supply_air: Vec<SupplyAirDocument<'a>>,
    #[serde(rename = "heat_off_to_55degF")]
    to_55f: FallDocument,
    #[serde(rename = "heat_off_to_40degF")]
    to_40f: FallDocument,
}

#[derive(Serialize, JsonSchema)]
struct ShareDocument {
    #[serde(rename = "outdoor_degC")]
    outdoor_c: f64,
    #[serde(rename = "capacity_in_room_kW")]
    capacity_kw: f64,
    share_of_design_load: f64,
}

#[derive(Serialize, JsonSchema)]
struct StripsDocument {
    #[serde(rename = "power_at_240V_kW")]
    kw: f64,
    #[serde(rename = "current_at_240V_A")]
    amps: f64,
    #[serde(rename = "current_125_percent_A")]
    amps_with_margin: f64,
    #[serde(rename = "power_at_208V_kW")]
    kw_at_208_v: f64,
    #[serde(rename = "circuits_of_48A_at_most")]
    circuits: usize,
}

#[derive(Serialize, JsonSchema)]
struct StripsAtDocument {
    #[serde(rename = "outdoor_degC")]
    outdoor_c: f64,
    for_shortfall: StripsDocument,
    for_whole_load: StripsDocument,
}

#[derive(Serialize, JsonSchema)]
struct SupplyAirDocument<'a> {
    machine: &'a str,
    #[serde(rename = "airflow_m3_s")]
    airflow_m3_s: f64,
    at: Vec<AirAtDocument>,
}

#[derive(Serialize, JsonSchema)]
struct AirAtDocument {
    #[serde(rename = "outdoor_degC")]
    outdoor_c: f64,
    #[serde(rename = "supply_air_degC")]
    supply_c: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
struct FallDocument {
    outcome: &'static str,
    hours: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
struct FailuresDocument<'a> {
    first_hour_of_run: usize,
    days: usize,
    #[serde(rename = "mean_outdoor_degC")]
    mean_outdoor_c: f64,
    worst: Option<usize>,
    runs: Vec<RunDocument<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct RunDocument<'a> {
    part: &'static str,
    zone: &'a str,
    machines: Vec<&'a str>,
    rooms: Vec<RoomDocument<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct RoomDocument<'a> {
    zone: &'a str,
    #[serde(rename = "lowest_room_degC")]
    lowest_c: Option<f64>,
    #[serde(rename = "hours_below_45degF")]
    hours_below_45f: Option<usize>,
    #[serde(rename = "heat_not_delivered_kWh")]
    not_delivered_kwh: f64,
}

#[derive(Serialize, JsonSchema)]
struct PowerOutDocument {
    heats_without_power: bool,
    #[serde(rename = "share_of_need_without_power")]
    share_without_power: Option<f64>,
    strips_off: GeneratorDocument,
    all_on: GeneratorDocument,
    #[serde(rename = "start_surge_least_kW")]
    surge_least_kw: Option<f64>,
    #[serde(rename = "start_surge_most_kW")]
    surge_most_kw: Option<f64>,
    generator_share_of_plate: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
struct GeneratorDocument {
    #[serde(rename = "running_kW")]
    running_kw: f64,
    share_of_need: f64,
}

/// Of one option.
pub(super) fn document<'a>(c: &'a Comparison, o: &'a OptionResult) -> ColdNightDocument<'a> {
    let night = &o.cold_night;
    let installed = night.strips(|z| z.installed);
    let zones = c.zones.iter().zip(&night.zones);
    ColdNightDocument {
        zones: zones.map(|(z, n)| zone(c, &z.name, z.design_load_kw(), n)).collect(),
        installed_strips: StripsDocument { circuits: night.circuits(|z| z.installed), ..strips(installed) },
        panel: wording::panel(installed.panel(c.basis.panel_spare_a)),
        failures: night.failures.as_ref().map(|f| failures(c, f)),
        power_out: power_out(&night.power_out),
    }
}

fn zone<'a>(c: &'a Comparison, name: &'a str, design_load_kw: f64, n: &ZoneColdNight) -> ZoneDocument<'a> {
    let first = &n.first_machine;
    let shares = first.shares.iter().chain([&first.at_design]).chain(&first.at_extreme_low);
    ZoneDocument {
        zone: name,
        design_load_kw,
        first_machine_shares: shares.map(share).collect(),
        retention_17f: first.retention_17f,
        retention_5f: first.retention_5f,
        installed_strips: strips(n.installed),
        strips_at_design: n.strips_at_design.as_ref().map(strips_at),
        strips_at_extreme_low: n.strips_at_extreme_low.as_ref().map(strips_at),
        supply_air: n.supply_air.iter().map(|a| supply_air(c, a, first.at_design.outdoor_c)).collect(),
        to_55f: fall(n.heat_off.to_55f),
        to_40f: fall(n.heat_off.to_40f),
    }
}

fn share(at: &ShareAt) -> ShareDocument {
    ShareDocument {
        outdoor_c: at.outdoor_c,
        capacity_kw: at.capacity_kw,
        share_of_design_load: at.of_design_load,
    }
}

fn strips(s: Strips) -> StripsDocument {
    StripsDocument {
        kw: s.kw,
        amps: s.amps(),
        amps_with_margin: s.amps_with_margin(),
        kw_at_208_v: s.kw_at_208_v(),
        circuits: s.circuits(),
    }
}

fn strips_at(at: &StripsAt) -> StripsAtDocument {
    StripsAtDocument {
        outdoor_c: at.outdoor_c,
        for_shortfall: strips(at.shortfall),
        for_whole_load: strips(at.whole),
    }
}

fn supply_air<'a>(c: &'a Comparison, air: &SupplyAir, design_c: f64) -> SupplyAirDocument<'a> {
    let outdoors = SUPPLY_AIR_AT_F.map(fahrenheit_to_celsius).into_iter().chain([design_c]);
    let temperatures = air.supply_c.into_iter().chain([air.at_design_c]);
    let at = outdoors.zip(temperatures).map(|(outdoor_c, supply_c)| AirAtDocument { outdoor_c, supply_c });
    SupplyAirDocument {
        machine: c.machines.get(air.machine).map_or("", |m| &m.name),
        airflow_m3_s: air.airflow_m3_s,
        at: at.collect(),
    }
}

fn fall(fall: Fall) -> FallDocument {
    match fall {
        Fall::Hours(hours) => FallDocument { outcome: "reached", hours: Some(hours) },
        Fall::Never => FallDocument { outcome: "never", hours: None },
        Fall::NotGiven => FallDocument { outcome: "not_given", hours: None },
    }
}

fn failures<'a>(c: &'a Comparison, f: &Failures) -> FailuresDocument<'a> {
    FailuresDocument {
        first_hour_of_run: f.first_hour,
        days: f.days,
        mean_outdoor_c: f.mean_outdoor_c,
        worst: f.worst().and_then(|worst| f.runs.iter().position(|run| run.group == worst.group)),
        runs: f.runs.iter().map(|run| failure_run(c, run)).collect(),
    }
}

fn failure_run<'a>(c: &'a Comparison, run: &FailureRun) -> RunDocument<'a> {
    let rooms = c.zones.iter().zip(&run.zones).map(|(zone, comfort)| RoomDocument {
        zone: &zone.name,
        lowest_c: comfort.room.as_ref().map(|r| r.lowest_c),
        hours_below_45f: comfort.room.as_ref().map(|r| r.hours_below_45f),
        not_delivered_kwh: comfort.heat_not_delivered_kwh,
    });
    let machines = run.group.machines.iter().filter_map(|i| c.machines.get(*i));
    RunDocument {
        part: wording::failed_part(run.group.part),
        zone: c.zones.get(run.group.zone).map_or("", |z| &z.name),
        machines: machines.map(|m| m.name.as_str()).collect(),
        rooms: rooms.collect(),
    }
}

fn power_out(out: &PowerOut) -> PowerOutDocument {
    let generator =
        |g: &Generator| GeneratorDocument { running_kw: g.running_kw, share_of_need: g.share_of_need };
    PowerOutDocument {
        heats_without_power: out.without_power.is_some(),
        share_without_power: out.without_power,
        strips_off: generator(&out.strips_off),
        all_on: generator(&out.strips_on),
        surge_least_kw: out.start_surge_kw.map(|(least, _)| least),
        surge_most_kw: out.start_surge_kw.map(|(_, most)| most),
        generator_share_of_plate: out.generator_share,
    }
}
