//! Quantities and names as the lines of a working print them.
//!
//! Start at [`Words`].

use crate::comparison::Comparison;
use crate::comparison::working::{MachineFacts, Working};
use crate::report::figures::{Measure, grouped};
use crate::simulation::working::Step;
use crate::units::UnitSystem;

/// What the lines of one moment have in common.
pub(super) struct Words<'a> {
    pub(super) measure: Measure,
    pub(super) heaters: &'a [MachineFacts],
    pub(super) cooler: Option<&'a MachineFacts>,
    pub(super) outdoor_c: f64,
    pub(super) is_steady: bool,
    /// Colder than this the control keeps the first heater off, °C.
    pub(super) lockout_c: Option<f64>,
    /// Places of the heaters that a recovery holds back.
    pub(super) held: &'a [usize],
    /// Of two heaters that take turns by cost, the one that heats for less.
    pub(super) cheaper: Option<usize>,
    /// What the other heads of its outdoor unit leave the cooler.
    pub(super) left_to_cooler: Option<&'a Step>,
    pub(super) c: &'a Comparison,
}

impl<'a> Words<'a> {
    pub(super) fn new(working: &'a Working, c: &'a Comparison) -> Self {
        let held = working.steps.iter().find_map(|step| match step {
            Step::Recovering { held, .. } => Some(held.as_slice()),
            _ => None,
        });
        let cheaper = working.steps.iter().find_map(|step| match step {
            Step::Weighed(weighed) => Some(usize::from(weighed.second_wins)),
            _ => None,
        });
        let option = c.options.iter().find(|option| option.design.name == working.option);
        let zone = c.zones.iter().position(|zone| zone.name == working.zone);
        let design = option.zip(zone).and_then(|(option, zone)| option.design.zones.get(zone));
        let of_cooler = |step: &&Step| matches!(step, Step::Shared { heater: None, .. });
        Self {
            measure: Measure(c.units),
            cheaper,
            left_to_cooler: working.steps.iter().find(of_cooler),
            heaters: &working.heaters,
            cooler: working.cooler.as_ref(),
            outdoor_c: working.outdoor_c,
            lockout_c: design.and_then(|design| design.changeover?.compressor_lockout_c),
            is_steady: working.stamp.is_none(),
            held: held.unwrap_or_default(),
            c,
        }
    }

    /// A temperature.
    pub(super) fn t(&self, celsius: f64) -> String {
        format!("{} {}", grouped(self.measure.temperature(celsius), 2), self.measure.degree())
    }

    /// A difference of temperatures.
    pub(super) fn k(&self, kelvin: f64) -> String {
        format!("{} {}", grouped(self.measure.difference(kelvin), 2), self.measure.degree())
    }

    /// A flow of heat.
    pub(super) fn q(&self, kw: f64) -> String {
        format!("{} {}", grouped(self.measure.power(kw), 3), self.measure.power_unit())
    }

    /// A heat loss rate, in the shown unit of heat flow for each shown degree.
    pub(super) fn rate(&self, kw_per_k: f64) -> String {
        let value = match self.measure.0 {
            UnitSystem::Us => self.measure.power(kw_per_k) / 1.8,
            UnitSystem::Si => kw_per_k,
        };
        format!("{} {} for each {}", grouped(value, 4), self.measure.power_unit(), self.measure.degree())
    }

    /// What a kilowatt-hour of heat costs, in the shown unit of heat.
    pub(super) fn for_heat(&self, per_kwh: f64) -> String {
        let unit = self.measure.pick("kBtu", "kWh");
        format!("{}{} for each {unit}", self.c.currency, grouped(per_kwh / self.measure.power(1.0), 5))
    }

    /// The name of the heater of that place.
    pub(super) fn name(&self, heater: usize) -> &str {
        self.heaters.get(heater).map_or("", |h| &h.name)
    }

    /// The name of the machine of that place in the job's list.
    pub(super) fn machine(&self, machine: usize) -> &str {
        self.c.machines.get(machine).map_or("", |m| &m.name)
    }

    /// The lines of a step.
    pub(super) fn step(&self, step: &Step) -> Vec<String> {
        match step {
            Step::Need { .. } => self.need(step),
            Step::Recovering { hour, held } => vec![self.recovering(*hour, held)],
            Step::Weighed(weighed) => self.weighed(weighed),
            Step::Wanted { heater, .. }
            | Step::WantedThrough { heater, .. }
            | Step::AtGreatest { heater, .. } => self.asked(*heater, step),
            Step::Output { .. } => self.output(step),
            Step::Tempering { .. } => vec![self.tempering(step)],
            Step::Defrosting { running_kw, heat_kw, of_bank } => {
                vec![self.defrosting(*running_kw, *heat_kw, *of_bank)]
            }
            Step::Frosty { share } => vec![format!(
                "Of the hours in its bin of 5 \u{b0}F, {} are those in which frost is melted, by their dew points; \
                 what tempers the air is on the mean of all of them.",
                grouped(*share, 4)
            )],
            // Told where the cooler is.
            Step::Shared { heater: None, .. } => Vec::new(),
            Step::Shared { .. } => self.shared(step),
            Step::Split { .. } => self.split(step),
            Step::Turn { heater, share, locked_out } => self.turn(*heater, *share, *locked_out),
            Step::Fuelled { .. } => self.fuelled(step),
            Step::InRoom { .. } => self.in_room(step),
            Step::Delivered { .. } => self.delivered(step),
            Step::CoolingNeed { .. } => vec![self.cooling_need(step)],
            Step::Cooled { .. } => self.cooled(step),
            Step::Standby { kw } => {
                vec![format!("Machines that gave nothing draw {} kW while they wait.", grouped(*kw, 4))]
            }
            Step::Ends { end_c, vented_k } => vec![self.ends(*end_c, *vented_k)],
        }
    }
}
