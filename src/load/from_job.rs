//! The job's `[house]` into zones, all problems together, every default noted.
//!
//! Start at [`zones`].

use super::ducts::{DuctLine, Ducts, SI_PER_US_R};
use super::zone::{CoolingNeed, Schedule, SetBack, Zone};
use crate::job::{ClockTime, CoolingSection, DuctsSection, Job, ZoneSection};
use crate::problem::{Problem, Problems};
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;

/// Windows are opened above this where the job gives nothing, °C.
pub const DEFAULT_VENT_C: f64 = 25.0;
/// Heat capacity of a house of medium weight, kJ/K for each m² of floor (ISO 13790:2008, table 12).
pub const MEDIUM_KJ_K_M2: f64 = 165.0;

/// Ducts that keep less than this of the heat are a slip.
const LEAST_EFFICIENCY: f64 = 0.3;

/// How far the design loads may be off where the job does not say, as a share.
pub const DEFAULT_UNCERTAINTY: f64 = 0.15;

/// How far the design loads may be off, as a share.
pub fn uncertainty(job: &Job, assumptions: &mut Assumptions) -> f64 {
    let given = job.house.load_uncertainty.as_deref().copied();
    assumptions.or_default(given, "house.load_uncertainty", DEFAULT_UNCERTAINTY, "0.15", || {
        let why = "load calculations of one house by several hands differ by about as much: a judgement";
        Source::CommonPractice(why.into())
    })
}

/// Builds every zone of the job.
///
/// `ducted` tells whether some option serves the zone of that name through ducts, `elevation_m` how thin
/// the air in them is.
///
/// # Errors
/// Everything that does not fit, with its place in the job.
pub fn zones(
    job: &Job,
    ducted: impl Fn(&str) -> bool,
    elevation_m: Option<f64>,
    assumptions: &mut Assumptions,
) -> Result<Vec<Zone>, Problems> {
    let (mut zones, mut problems) = (Vec::new(), Problems::new());
    for z in &job.house.zone {
        match zone(job, z, (ducted(&z.name), elevation_m), assumptions) {
            Ok(zone) => zones.push(zone),
            Err(found) => problems.extend(found),
        }
    }
    if problems.is_empty() { Ok(zones) } else { Err(problems) }
}

fn zone(
    job: &Job,
    z: &ZoneSection,
    (ducted, elevation_m): (bool, Option<f64>),
    assumptions: &mut Assumptions,
) -> Result<Zone, Problems> {
    let key = |k: &str| format!("house.zone.{}.{k}", z.name.value);
    let (indoor, design) = (z.indoor.base(), z.design_temperature.base());
    let loss_kw_k = z.design_load.base() / (indoor - design);
    let set_point_c = assumptions.or_default(
        z.heating_set_point.as_deref().map(|t| t.base()),
        key("heating_set_point"),
        indoor,
        job.job.units.system().temperature_text(indoor),
        || Source::Derived("the indoor temperature of the design, all day".into()),
    );
    let vent_c = assumptions.or_default(
        z.vent.as_deref().map(|t| t.base()),
        key("vent"),
        DEFAULT_VENT_C,
        job.job.units.system().temperature_text(DEFAULT_VENT_C),
        || Source::CommonPractice("windows are opened above this".into()),
    );
    let capacity = heat_capacity(job, z, &key("heat_capacity"), assumptions);
    let ducts = duct_efficiency(job, z, (ducted, elevation_m), &key("duct_efficiency"), assumptions);
    let (heat_capacity_kwh_k, duct_efficiency) = match (capacity, ducts) {
        (Ok(capacity), Ok(ducts)) => (capacity, ducts),
        (capacity, ducts) => return Err(capacity.err().into_iter().chain(ducts.err()).collect()),
    };
    Ok(Zone {
        name: z.name.value.clone(),
        loss_kw_k,
        gains_kw: loss_kw_k * (indoor - z.balance_temperature.base()),
        heat_capacity_kwh_k,
        indoor_c: indoor,
        design_temperature_c: design,
        balance_temperature_c: z.balance_temperature.base(),
        heating: schedule(z, set_point_c),
        vent_c,
        cooling: z.cooling.as_ref().map(cooling),
        duct_efficiency,
        duct_line: duct_line(z, ducted, elevation_m),
    })
}

fn cooling(c: &CoolingSection) -> CoolingNeed {
    let balance = c.cooling_balance_temperature.base();
    let loss_kw_k = c.cooling_design_load.base() / (c.cooling_design_temperature.base() - balance);
    let set_point_c = c.cooling_set_point.base();
    CoolingNeed {
        loss_kw_k,
        gains_kw: loss_kw_k * (set_point_c - balance),
        balance_temperature_c: balance,
        set_point_c,
        design_temperature_c: c.cooling_design_temperature.base(),
    }
}

fn schedule(z: &ZoneSection, set_point_c: f64) -> Schedule {
    let minute = |t: &ClockTime| u32::from(t.hour) * 60 + u32::from(t.minute);
    let set_backs = z.set_back.iter().map(|s| SetBack {
        from_minute: minute(&s.from),
        to_minute: minute(&s.to),
        set_point_c: s.set_point.base(),
    });
    Schedule { set_point_c, set_backs: set_backs.collect() }
}

fn heat_capacity(
    job: &Job,
    z: &ZoneSection,
    key: &str,
    assumptions: &mut Assumptions,
) -> Result<f64, Problem> {
    if let Some(given) = &z.heat_capacity {
        return Ok(given.base());
    }
    let Some(area) = floor_area_m2(job, z) else {
        let what = "without heat_capacity the program needs a floor area to estimate it from";
        let problem = job.problem(&z.name.span, key, what);
        return Err(problem.help("Add floor_area = \"2000 ft2\" to [house] or to this zone"));
    };
    let value = MEDIUM_KJ_K_M2 / 3600.0 * area;
    let floor =
        if z.floor_area.is_some() { "the zone's floor" } else { "floor, the house's shared by design load" };
    let source = Source::Published(format!("ISO 13790:2008, class medium: 165 kJ/K for each m² of {floor}"));
    assumptions.note(key, format!("{value:.2} kWh/K"), source);
    Ok(value)
}

/// The zone's own floor area, else its share of the house's by design load.
fn floor_area_m2(job: &Job, z: &ZoneSection) -> Option<f64> {
    if let Some(own) = &z.floor_area {
        return Some(own.base());
    }
    let house = job.house.floor_area.as_ref()?.base();
    let total: f64 = job.house.zone.iter().map(|other| other.design_load.base()).sum();
    // Zones that lose nothing share evenly: 0 of 0 would be no number.
    let share = if total > 0.0 { z.design_load.base() / total } else { 1.0 / job.house.zone.len() as f64 };
    Some(house * share)
}

fn meant(s: &DuctsSection, elevation_m: Option<f64>) -> Ducts {
    Ducts {
        supply_area_m2: s.supply_area.base(),
        return_area_m2: s.return_area.base(),
        supply_r: s.supply_r.value * SI_PER_US_R,
        return_r: s.return_r.value * SI_PER_US_R,
        airflow_m3_s: s.airflow.base(),
        elevation_m,
        supply_leak: s.supply_leak.value,
        return_leak: s.return_leak.value,
    }
}

/// What the zone's ducts keep of a machine's heat by its output; nothing where they are not told or
/// nothing goes through them.
fn duct_line(z: &ZoneSection, ducted: bool, elevation_m: Option<f64>) -> Option<DuctLine> {
    let section = z.ducts.as_ref().filter(|_| ducted)?;
    Some(meant(section, elevation_m).line_for(z.indoor.base(), section.ambient.as_deref().map(|t| t.base())))
}

/// What the zone's ducts keep of the heat that covers half of the design need, at the outdoor temperature
/// where that is so.
fn seasonal_efficiency(z: &ZoneSection, s: &DuctsSection, elevation_m: Option<f64>) -> f64 {
    let (indoor, design, balance) =
        (z.indoor.base(), z.design_temperature.base(), z.balance_temperature.base());
    let half_kw = z.design_load.base() * (balance - design) / (indoor - design) / 2.0;
    let ambient = s.ambient.as_deref().map_or((balance + design) / 2.0, |t| t.base());
    meant(s, elevation_m).efficiency_at_need(half_kw, indoor, ambient)
}

fn duct_efficiency(
    job: &Job,
    z: &ZoneSection,
    (ducted, elevation_m): (bool, Option<f64>),
    key: &str,
    assumptions: &mut Assumptions,
) -> Result<f64, Problem> {
    if let (Some(ducts), true) = (&z.ducts, ducted) {
        let kept = seasonal_efficiency(z, ducts, elevation_m);
        if kept < LEAST_EFFICIENCY {
            let what = format!("these ducts would keep {kept:.2} of the heat at half of the design need");
            let problem = job.problem(&ducts.supply_area.span, key.replace("duct_efficiency", "ducts"), what);
            return Err(problem
                .allowed(format!("{LEAST_EFFICIENCY} or more"))
                .help("see whether areas, R-values, leaks and airflow are in the units they say"));
        }
        let why = "the form of ASHRAE Standard 152; in the hours heat goes by each hour's own output, cold by \
                   this figure";
        assumptions.note(key, format!("{kept:.4} at half of the design need"), Source::Derived(why.into()));
        return Ok(kept);
    }
    if z.design_load_includes_ducts.value || !ducted {
        return Ok(1.0);
    }
    match &z.duct_efficiency {
        Some(given) => Ok(given.value),
        None => Err(job
            .problem(
                &z.name.span,
                key,
                "a ducted machine serves this zone, but the share of its heat that the ducts keep is not given",
            )
            .allowed(
                "0.97–1 inside the insulated house, 0.80–0.85 vented attic with R-8, \
                 0.85–0.90 vented crawl space (common practice)",
            )
            .help(
                "Add duct_efficiency = 0.85, or design_load_includes_ducts = true if the load \
                 calculation has the ducts in it",
            )),
    }
}
