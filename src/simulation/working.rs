//! One hour or bin of one zone as arithmetic: the steps a pocket calculator can follow, from the
//! need to every machine's draw.
//!
//! The numbers are those the kernel used; where the steps and the kernel part, that is a defect and
//! a test says so. Words are `report`'s. Start at [`work`].

use super::kernel::{Heater, ZoneHour, ZoneOutcome, hour};
use super::through::{Through, unfold};
use crate::equipment::output::{LEAST_WISH_KW, MachineHour, Output};

/// One step. Heat in kW all through the hour, so kWh in the hour; temperatures in °C.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// What the zone loses and gains: `need = loss·(steady − outdoor) − gains`, not below 0.
    Need {
        /// Loss, kW/K.
        loss_kw_k: f64,
        /// Gains, kW.
        gains_kw: f64,
        /// Share of a temperature difference left after an hour; 0 for a steady zone.
        decay: f64,
        /// Room at the hour's start.
        start_c: f64,
        /// Set point.
        set_point_c: f64,
        /// Outdoors.
        outdoor_c: f64,
        /// `(set point − decay·start)/(1 − decay)`: the steady temperature that would need as much.
        steady_c: f64,
        /// The need.
        need_kw: f64,
    },
    /// What a heater is asked for: what is still lacking, through its ducts.
    Wanted {
        /// Its place among the zone's heaters.
        heater: usize,
        /// Still lacking in the room.
        lacking_kw: f64,
        /// Share that its ducts keep.
        ducts: f64,
        /// `lacking/ducts`.
        wanted_kw: f64,
    },
    /// The same through ducts that lose more of a low output: `wanted = (lacking + lost·running)/kept`.
    WantedThrough {
        /// Its place among the zone's heaters.
        heater: usize,
        /// Still lacking in the room.
        lacking_kw: f64,
        /// Share of the output that the ducts keep.
        kept: f64,
        /// Lost beside it while air moves.
        lost_kw: f64,
        /// Share of the hour that it would have to run.
        running: f64,
        /// What is wanted at the machine.
        wanted_kw: f64,
    },
    /// What it gives and draws while it runs so.
    Output {
        /// Its place among the zone's heaters.
        heater: usize,
        /// How the draw comes about.
        how: Running,
        /// Heat at the machine.
        heat_kw: f64,
        /// Draw of its own fuel.
        draw_kw: f64,
        /// Electricity beside it.
        side_kw: f64,
    },
    /// Strips temper the air while the first heater defrosts: this much of its heat and of the
    /// electricity beside it is theirs.
    Defrosting {
        /// Of them while it runs all the hour.
        running_kw: f64,
        /// Of them as it ran.
        heat_kw: f64,
        /// Whether they are a part of a bank, which gives so much less beside.
        of_bank: bool,
    },
    /// A furnace tempers the air while the first heater defrosts: so much of that one's heat is the
    /// furnace's, all figures on the mean of the hour.
    Tempering {
        /// The furnace's place among the zone's heaters.
        heater: usize,
        /// Share of the hour that the first heater ran.
        running: f64,
        /// The furnace's heat, before ducts.
        heat_kw: f64,
        /// Its draw of fuel.
        draw_kw: f64,
        /// Electricity beside it.
        side_kw: f64,
    },
    /// In so large a share of the hours in the bin of this outdoor temperature frost is melted, by their dew
    /// points; what tempers the air is on the mean of all of them.
    Frosty {
        /// The share, 0 to 1.
        share: f64,
    },
    /// Two heaters took turns: this one had this share of the hour.
    Turn {
        /// Its place among the zone's heaters.
        heater: usize,
        /// Its share of the hour.
        share: f64,
        /// Whether the control keeps it off: colder than its compressor lock-out.
        locked_out: bool,
    },
    /// Its fuel reached for so large a share of that only.
    Fuelled {
        /// Its place among the zone's heaters.
        heater: usize,
        /// The share of heat and draw, 0 to 1.
        share: f64,
    },
    /// What reached the room in all.
    Delivered {
        /// Heat in the room.
        heat_kw: f64,
        /// What was wanted.
        need_kw: f64,
    },
    /// What must be taken out for the room to end at its cooling set point:
    /// `need = loss·(outdoor − steady) + gains`, none if it would not end above it.
    CoolingNeed {
        /// Where the room would end without cooling.
        uncooled_c: f64,
        /// Cooling set point.
        set_point_c: f64,
        /// Loss, kW/K.
        loss_kw_k: f64,
        /// Gains, kW.
        gains_kw: f64,
        /// `(set point − decay·start)/(1 − decay)`: the steady temperature that would need as much.
        steady_c: f64,
        /// Outdoors.
        outdoor_c: f64,
        /// Sensible cooling wanted in the room.
        need_kw: f64,
    },
    /// What the cooler gives and draws.
    Cooled {
        /// Sensible cooling in the room for each kW of total cooling.
        sensible: f64,
        /// Total cooling asked of it.
        wanted_kw: f64,
        /// How the draw comes about.
        how: Running,
        /// Total cooling that it gives.
        cooling_kw: f64,
        /// Draw of electricity.
        draw_kw: f64,
        /// Electricity beside it.
        side_kw: f64,
    },
    /// What machines that gave nothing draw while they wait.
    Standby {
        /// Electricity.
        kw: f64,
    },
    /// Where the room ends; a steady zone has no such step.
    Ends {
        /// Room at the hour's end.
        end_c: f64,
        /// What open windows took off, K.
        vented_k: f64,
    },
}

/// How a machine's draw comes about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Running {
    /// It is off or asked for nothing; a pilot may burn.
    Off,
    /// It cycles below its least output: `draw = share·power/(1 − C_D·(1 − share))`.
    Cycling {
        /// Least output.
        least_kw: f64,
        /// Draw at the least output.
        power_least_kw: f64,
        /// Cycling loss.
        cycling_loss: f64,
        /// `heat/least`.
        share: f64,
        /// `1 − C_D·(1 − share)`.
        part_load_factor: f64,
    },
    /// Between two outputs of its map: `draw = power + slope·(heat − output)`.
    Between {
        /// The output below.
        from_kw: f64,
        /// The draw there.
        power_kw: f64,
        /// Further draw for each further kW.
        slope: f64,
    },
}

/// Works one zone-hour out, with the kernel's own outcome.
pub fn work(zone: &ZoneHour<'_, f64>) -> (Vec<Step>, ZoneOutcome<f64>) {
    let outcome = hour(zone);
    let mut steps = vec![need(zone, outcome.need)];
    let mut heat = 0.0;
    for (place, (heater, output)) in zone.heaters.iter().zip(&outcome.heaters).enumerate() {
        // Of two that take turns, each had its share of the hour and ran in it as for the whole need.
        let turn = match (zone.handover, place) {
            (Some(_), 0) => Some(1.0 - outcome.turn),
            (Some(_), 1) => Some(outcome.turn),
            _ => None,
        };
        let lacking_kw = if turn.is_some() { outcome.need } else { (outcome.need - heat).max(0.0) };
        let locked_out = place == 0 && zone.handover.is_some_and(|how| how.locked_out > 0.0);
        let turn = turn.map(|share| (share, locked_out));
        let is_asked = lacking_kw * heater.before_ducts >= LEAST_WISH_KW;
        // A heater of which nothing is wanted has a line only where its pilot burns on.
        if is_asked || output.draw > 0.0 {
            steps.extend(heater_steps(place, heater, output, lacking_kw, turn));
        }
        heat += output.heat * heater.ducts;
    }
    steps.push(Step::Delivered { heat_kw: outcome.heat, need_kw: outcome.need });
    steps.extend(cooling_steps(zone, &outcome));
    if zone.room.decay > 0.0 {
        steps.push(Step::Ends { end_c: outcome.end_c, vented_k: outcome.vented_k });
    }
    (steps, outcome)
}

/// The same with ducts folded into the heaters, told and given at the machines.
pub(super) fn work_through(zone: &ZoneHour<'_, f64>, through: &[Through]) -> (Vec<Step>, ZoneOutcome<f64>) {
    let (mut steps, mut outcome) = work(zone);
    for step in &mut steps {
        let (Step::Wanted { heater, .. } | Step::Output { heater, .. }) = step else { continue };
        let found = through.get(*heater).filter(|t| **t != Through::NONE).zip(zone.heaters.get(*heater));
        if let Some((ducts, heater)) = found {
            *step = at_machine(step, *ducts, heater);
        }
    }
    unfold(&mut outcome, through);
    (steps, outcome)
}

/// A step of a heater that stands in the room, as one of the machine behind its ducts.
fn at_machine(step: &Step, ducts: Through, folded: &Heater<f64>) -> Step {
    let least_kw = folded.machine.least;
    let given = |kw: f64| ducts.at_machine_kwh(kw, (kw / least_kw).min(1.0));
    match *step {
        Step::Wanted { heater, lacking_kw, .. } => Step::WantedThrough {
            heater,
            lacking_kw,
            kept: ducts.kept,
            lost_kw: ducts.lost_kw,
            running: (lacking_kw / least_kw).min(1.0),
            wanted_kw: given(lacking_kw),
        },
        Step::Output { heater, how, heat_kw, draw_kw, side_kw } => {
            let how = match how {
                Running::Off => Running::Off,
                Running::Cycling { power_least_kw, cycling_loss, share, part_load_factor, .. } => {
                    let least_kw = given(least_kw);
                    Running::Cycling { least_kw, power_least_kw, cycling_loss, share, part_load_factor }
                }
                Running::Between { from_kw, power_kw, slope } => {
                    Running::Between { from_kw: given(from_kw), power_kw, slope: slope * ducts.kept }
                }
            };
            Step::Output { heater, how, heat_kw: given(heat_kw), draw_kw, side_kw }
        }
        _ => step.clone(),
    }
}

fn cooling_steps(zone: &ZoneHour<'_, f64>, outcome: &ZoneOutcome<f64>) -> Vec<Step> {
    let (Some(cooler), room) = (&zone.cooler, &zone.room) else { return Vec::new() };
    let need = Step::CoolingNeed {
        uncooled_c: room.end(zone.start_c, outcome.heat),
        set_point_c: cooler.set_point_c,
        loss_kw_k: room.loss_kw_k,
        gains_kw: room.gains_kw,
        steady_c: (cooler.set_point_c - room.decay * zone.start_c) / (1.0 - room.decay),
        outdoor_c: room.outdoor_c,
        need_kw: outcome.cooling_need,
    };
    let cooled = (outcome.cooling_need > 0.0).then(|| Step::Cooled {
        sensible: cooler.sensible,
        wanted_kw: outcome.cooling_need / cooler.sensible,
        how: running_how(&cooler.machine, cooler.cycling_loss, outcome.cooler.heat),
        cooling_kw: outcome.cooler.heat,
        draw_kw: outcome.cooler.draw,
        side_kw: outcome.cooler.side,
    });
    std::iter::once(need).chain(cooled).collect()
}

/// Puts in, after the first heater's output, what strips gave of it: `running_kw` while it runs all
/// through the hour, perhaps `of_bank` that serves the room beside.
pub(super) fn tell_defrosting(steps: &mut Vec<Step>, running_kw: Option<f64>, of_bank: bool) {
    let Some(running_kw) = running_kw.filter(|kw| *kw > 0.0) else { return };
    let first = steps.iter().position(|s| matches!(s, Step::Output { heater: 0, .. }));
    let Some(Step::Output { how, .. }) = first.and_then(|at| steps.get(at)) else { return };
    let share = match how {
        Running::Off => return,
        Running::Cycling { share, .. } => *share,
        Running::Between { .. } => 1.0,
    };
    let step = Step::Defrosting { running_kw, heat_kw: running_kw * share, of_bank };
    steps.insert(first.map_or(0, |at| at + 1), step);
}

fn need(zone: &ZoneHour<'_, f64>, need_kw: f64) -> Step {
    let room = &zone.room;
    Step::Need {
        loss_kw_k: room.loss_kw_k,
        gains_kw: room.gains_kw,
        decay: room.decay,
        start_c: zone.start_c,
        set_point_c: zone.set_point_c,
        outdoor_c: room.outdoor_c,
        steady_c: (zone.set_point_c - room.decay * zone.start_c) / (1.0 - room.decay),
        need_kw,
    }
}

fn heater_steps(
    place: usize,
    heater: &Heater<f64>,
    output: &Output<f64>,
    lacking_kw: f64,
    turn: Option<(f64, bool)>,
) -> Vec<Step> {
    let fuelled = if turn.is_none() { fuelled(heater, output, lacking_kw) } else { None };
    let share = turn.map(|(share, _)| share).or(fuelled).unwrap_or(1.0);
    let running = if share > 0.0 { output.share(1.0 / share) } else { Output::zero() };
    let asked =
        Step::Wanted { heater: place, lacking_kw, ducts: heater.ducts, wanted_kw: lacking_kw / heater.ducts };
    let gave = Step::Output {
        heater: place,
        how: running_how(&heater.machine, heater.cycling_loss, running.heat),
        heat_kw: running.heat,
        draw_kw: running.draw,
        side_kw: running.side,
    };
    let turned = turn.map(|(share, locked_out)| Step::Turn { heater: place, share, locked_out });
    let fuelled = fuelled.map(|share| Step::Fuelled { heater: place, share });
    [asked, gave].into_iter().chain(turned).chain(fuelled).collect()
}

/// The share of what was asked that the fuel allowed, where it allowed less.
fn fuelled(heater: &Heater<f64>, output: &Output<f64>, lacking_kw: f64) -> Option<f64> {
    heater.fuel_most?;
    let ample = heater.machine.run(heater.cycling_loss, lacking_kw * heater.before_ducts);
    (output.draw < ample.draw).then(|| output.draw / ample.draw)
}

fn running_how(m: &MachineHour<f64>, cycling_loss: f64, heat_kw: f64) -> Running {
    if heat_kw <= 0.0 {
        return Running::Off;
    }
    if heat_kw < m.least {
        let share = heat_kw / m.least;
        return Running::Cycling {
            least_kw: m.least,
            power_least_kw: m.power_least,
            cycling_loss,
            share,
            part_load_factor: 1.0 - cycling_loss * (1.0 - share),
        };
    }
    if heat_kw <= m.rated {
        return Running::Between { from_kw: m.least, power_kw: m.power_least, slope: m.slope_low };
    }
    let power_kw = m.power_least + m.slope_low * (m.rated - m.least);
    Running::Between { from_kw: m.rated, power_kw, slope: m.slope_high }
}
