//! The power goes: what still heats, and what a generator must give to keep the rest going.
//!
//! Start at [`PowerOut`].

use super::House;
use super::carried::Carried;
use crate::equipment::output::Output;
use crate::equipment::{Machine, MachineKind};
use crate::fuel::FuelId;
use crate::load::Zone;
use crate::simulation::bins::steady_hour;
use crate::simulation::design::{OptionDesign, ZoneDesign};
use crate::simulation::source::heating_source_c;
use crate::units::METRES_PER_FOOT;

/// A single-speed compressor draws so many times its running watts as it starts; common practice.
pub const START_SURGE: (f64, f64) = (3.0, 5.0);
fn without_power(design: &OptionDesign, house: &House<'_>) -> Option<f64> {
    let heats =
        |i: &usize| house.machines.get(*i).is_some_and(|m| m.heats_without_power(house.basis.midwinter));
    design.zones.iter().flat_map(|z| &z.heaters).find(|i| heats(i))?;
    let (mut heat, mut need) = (0.0, 0.0);
    for (zone, d) in house.zones.iter().zip(&design.zones) {
        let left = d.heaters.iter().copied().filter(heats).collect();
        let d =
            ZoneDesign { heaters: left, changeover: None, defrost_aux: None, tempering: None, ..d.clone() };
        let outcome = steady_hour(zone, &d, house.machines, zone.design_temperature_c);
        (heat, need) = (heat + outcome.heat, need + outcome.need);
    }
    Some(if heat < need * (1.0 - 1e-9) { heat / need } else { 1.0 })
}

/// Share of its plate that a generator loses for each 1,000 ft of height; common practice.
pub const DERATE_PER_1000_FT: f64 = 0.035;
/// Electricity from a gallon of propane in a home generator, kWh; common practice.
pub const KWH_PER_GALLON: f64 = 5.4;

/// What is left when the power goes.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerOut {
    /// Share of the house's need at the design temperature that machines which need no power meet, 0 to 1, a
    /// day's fuelling spread over the day; nothing where there is no such machine.
    pub without_power: Option<f64>,
    /// What keeps the house heated at the design temperature with backup strips locked out, and a heat
    /// pump with a burner behind it switched off.
    pub strips_off: Generator,
    /// The same with every machine free to run.
    pub strips_on: Generator,
    /// Watts of the largest single-speed compressor that runs then, as it starts: from and to, kW;
    /// nothing where no such compressor runs.
    pub start_surge_kw: Option<(f64, f64)>,
    /// Share of its plate that a generator gives at this height; nothing where it is not known.
    pub generator_share: Option<f64>,
}

/// What a generator would have to carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Generator {
    /// All machines that run at the design temperature at once, while they run, kW.
    pub running_kw: f64,
    /// The smallest share of any zone's need that is met so, 0 to 1.
    pub share_of_need: f64,
    /// Whether strips run alone in ducts whose blower's draw is not known, and so not in the sum.
    pub lacks_blower: bool,
}

impl PowerOut {
    /// The plate (kW) of a generator that carries `kw` at this height, to the next half: nobody sizes one closer.
    /// At sea level where the height is not known.
    pub fn plate_kw(&self, kw: f64) -> f64 {
        let share = self.generator_share.filter(|share| *share > 0.0).unwrap_or(1.0);
        (kw / share * 2.0).ceil() / 2.0
    }

    /// Of `design`, at each zone's design temperature.
    pub fn new(design: &OptionDesign, house: &House<'_>) -> Self {
        let bare: Vec<ZoneDesign> = design.zones.iter().map(|d| without_strips(d, house.machines)).collect();
        Self {
            without_power: without_power(design, house),
            strips_off: generator(&bare, house),
            strips_on: generator(&design.zones, house),
            start_surge_kw: start_surge_kw(&bare, house),
            generator_share: house.elevation_m.map(generator_share),
        }
    }
}

/// Share of its plate that a generator gives at `elevation_m`, 0 to 1.
///
/// ```
/// use winterledger::coldnight::power_out::generator_share;
/// assert!((generator_share(4000.0 * 0.3048) - 0.86).abs() < 1e-12); // 1 − 4·0.035
/// ```
pub fn generator_share(elevation_m: f64) -> f64 {
    let feet = elevation_m.max(0.0) / METRES_PER_FOOT;
    (1.0 - DERATE_PER_1000_FT * feet / 1000.0).max(0.0)
}

/// The zone's design without the resistance heat that stands behind another machine, and without a heat
/// pump whose turns a burner can take: nobody would let a generator carry it.
fn without_strips(design: &ZoneDesign, machines: &[Machine]) -> ZoneDesign {
    let is_strip = |i: &usize| machines.get(*i).is_some_and(|m| m.kind == MachineKind::Resistance);
    let needless = usize::from(design.changeover.is_some() && design.heaters.len() > 1);
    let heaters = design.heaters.iter().skip(needless).enumerate();
    let kept = heaters.filter(|(place, i)| *place == 0 || !is_strip(i)).map(|(_, i)| *i);
    ZoneDesign { heaters: kept.collect(), changeover: None, defrost_aux: None, ..design.clone() }
}

fn generator(designs: &[ZoneDesign], house: &House<'_>) -> Generator {
    let mut sum = Generator { running_kw: 0.0, share_of_need: 1.0, lacks_blower: false };
    for (zone, design) in house.zones.iter().zip(designs) {
        let outcome = steady_hour(zone, design, house.machines, zone.design_temperature_c);
        let at = Carried {
            outdoor_c: zone.design_temperature_c,
            need_kw: outcome.need,
            heat_kw: outcome.heat,
            first_capacity_kw: 0.0,
        };
        sum.share_of_need = sum.share_of_need.min(at.share());
        let machines: Vec<_> = running_machines(zone, design, house.machines).collect();
        if strips_blow_alone(&machines) {
            let blower = blower_kw(design, house.machines);
            sum.running_kw += blower.unwrap_or(0.0);
            sum.lacks_blower |= blower.is_none();
        }
        let running: Vec<f64> = machines.into_iter().map(|(_, kw)| kw).collect();
        sum.running_kw += match (design.changeover, running.as_slice()) {
            // The first two take turns and never run at once.
            (Some(_), [lead, alternate, others @ ..]) => lead.max(*alternate) + others.iter().sum::<f64>(),
            (_, all) => all.iter().sum(),
        };
    }
    sum
}

/// Whether of the machines that run none in the ducts but strips does, so that no draw has a blower in it.
fn strips_blow_alone(running: &[(&Machine, f64)]) -> bool {
    let mut ducted = running.iter().filter(|(machine, kw)| machine.ducted && *kw > 0.0).peekable();
    ducted.peek().is_some() && ducted.all(|(machine, _)| machine.kind == MachineKind::Resistance)
}

/// What the blower draws that strips share with a heat pump, kW, where its draw does not hold it; a ground loop's
/// pump would be in the figure.
fn blower_kw(design: &ZoneDesign, machines: &[Machine]) -> Option<f64> {
    let ducted = design.heaters.iter().filter_map(|i| machines.get(*i)).filter(|machine| machine.ducted);
    let fans =
        ducted.filter(|machine| machine.ground.is_none()).filter_map(|machine| machine.heating.as_ref());
    fans.map(|heating| heating.fan_kw).find(|kw| *kw > 0.0)
}

/// Each heater of a zone with its electricity while it runs at the design temperature, kW; 0 where it
/// does not run.
fn running_machines<'a>(
    zone: &Zone,
    design: &'a ZoneDesign,
    machines: &'a [Machine],
) -> impl Iterator<Item = (&'a Machine, f64)> {
    let outdoor_c = zone.design_temperature_c;
    let outcome = steady_hour(zone, design, machines, outdoor_c);
    let split = design.changeover.is_some() && outcome.heaters.iter().take(2).all(|o| o.heat > 0.0);
    let outputs = outcome.heaters.into_iter().enumerate();
    design.heaters.iter().zip(outputs).filter_map(move |(i, (place, output))| {
        let machine = machines.get(*i)?;
        let source_c = heating_source_c(machine, zone, outdoor_c, None);
        Some((machine, running_kw(machine, &output, source_c, split && place < 2)))
    })
}

/// Electricity that a machine draws while it runs, kW; `output` is its mean over the hour.
fn running_kw(machine: &Machine, output: &Output<f64>, source_c: f64, in_turns: bool) -> f64 {
    let Some(heating) = machine.heating.as_ref().filter(|_| output.heat > 0.0) else { return 0.0 };
    if machine.kind == MachineKind::Resistance {
        return stages_on_kw(&machine.stages_kw, output.heat);
    }
    let can = heating.hour_at(source_c);
    // Nothing is known of the least output of a machine without cycling loss: it follows the need.
    let follows = machine.kind == MachineKind::HeatPump && heating.cycling_loss == 0.0;
    let heat = match (in_turns, follows) {
        (true, _) => can.greatest,
        (false, true) => output.heat,
        (false, false) => output.heat.max(can.least),
    };
    let running = can.run(0.0, heat);
    let draw = if machine.fuel == FuelId::ELECTRICITY { running.draw } else { 0.0 };
    draw + if follows { can.side } else { running.side }
}

/// Stages come on one after the other until they give what is wanted.
fn stages_on_kw(stages_kw: &[f64], heat_kw: f64) -> f64 {
    if stages_kw.is_empty() {
        return heat_kw;
    }
    let mut on = 0.0;
    for stage in stages_kw {
        if on >= heat_kw * (1.0 - 1e-9) {
            break;
        }
        on += stage;
    }
    on
}

/// The start of the largest single-speed compressor that runs at the design temperature.
fn start_surge_kw(designs: &[ZoneDesign], house: &House<'_>) -> Option<(f64, f64)> {
    let zones = house.zones.iter().zip(designs);
    let running = zones.flat_map(|(zone, design)| running_machines(zone, design, house.machines));
    let single = running.filter(|(machine, kw)| *kw > 0.0 && has_one_speed(machine)).map(|(_, kw)| kw);
    single.max_by(f64::total_cmp).map(|kw| (START_SURGE.0 * kw, START_SURGE.1 * kw))
}

/// A heat pump that cycles and has no output below its greatest.
fn has_one_speed(machine: &Machine) -> bool {
    let cycles = machine.heating.as_ref().filter(|h| h.cycling_loss > 0.0);
    let one = |h: &crate::equipment::Heating| {
        h.map.rows().iter().all(|r| r.least.capacity_kw >= r.greatest.capacity_kw)
    };
    machine.kind == MachineKind::HeatPump && cycles.is_some_and(one)
}
