//! The steps of one hour's arithmetic, as values; words are `report`'s.
//!
//! Start at [`Step`].

use super::running::{Running, Weighed};

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
        /// What those before it brought into the room: `lacking = need − before`.
        before_kw: f64,
        /// What is wanted in the room.
        need_kw: f64,
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
        /// What those before it brought into the room: `lacking = need − before`.
        before_kw: f64,
        /// What is wanted in the room.
        need_kw: f64,
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
        /// The same while it runs all through the hour.
        side_running_kw: f64,
    },
    /// Two heaters share the hour, each at its greatest output: this is one of them.
    AtGreatest {
        /// Its place among the zone's heaters.
        heater: usize,
        /// Its greatest output at the machine.
        greatest_kw: f64,
        /// Share of it that the ducts keep.
        kept: f64,
        /// Lost beside that.
        lost_kw: f64,
        /// `kept·greatest − lost`.
        in_room_kw: f64,
    },
    /// How they share it: `share = (need − first)/(second − first)`.
    Split {
        /// What the first brings into the room in all of an hour.
        first_kw: f64,
        /// What the second brings.
        second_kw: f64,
        /// What is wanted.
        need_kw: f64,
        /// The second's share of the hour.
        share: f64,
    },
    /// Which of two heaters heats for less, each at its own load.
    Weighed(Box<Weighed>),
    /// The heads of one outdoor unit ask for more than it can give: each has its share.
    Shared {
        /// The head's place among the zone's heaters; nothing for the zone's cooler.
        heater: Option<usize>,
        /// What the unit can give to all its heads.
        unit_kw: f64,
        /// What each head asks for, by its place in the list of machines.
        asked: Vec<(usize, f64)>,
        /// Their sum.
        asked_kw: f64,
        /// What this head asks for.
        own_kw: f64,
        /// `own·unit/asked`: what is left to it.
        left_kw: f64,
        /// Whether each counts with all that it can give, as where there are no hours in order.
        of_greatest: bool,
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
        /// Share of the hour that is left to the furnace for the room, 0 to 1.
        own_time: f64,
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
        /// What is there for the hour, kWh.
        most_kwh: f64,
        /// What it would have burned, kWh.
        asked_kwh: f64,
        /// `most/asked`: the share of heat and draw, 0 to 1.
        share: f64,
    },
    /// What a heater brought into the room: `share·(kept·heat − lost·running)`.
    InRoom {
        /// Its place among the zone's heaters.
        heater: usize,
        /// Heat at the machine as it ran.
        heat_kw: f64,
        /// Its share of that, where it took turns or its fuel was short; else 1.
        share: f64,
        /// Share of the heat that the ducts keep.
        kept: f64,
        /// Lost beside it while air moves.
        lost_kw: f64,
        /// Share of its time in which it ran.
        running: f64,
        /// Draw of its own fuel as it ran.
        draw_kw: f64,
        /// Heat in the room.
        in_room_kw: f64,
    },
    /// The hour belongs to a recovery from a set-back.
    Recovering {
        /// Which hour of it, from 1.
        hour: u8,
        /// Places of the heaters that are held back in it.
        held: Vec<usize>,
    },
    /// What reached the room in all.
    Delivered {
        /// What each heater brought, where it brought anything.
        parts: Vec<f64>,
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
        /// The same while it runs all through the hour.
        side_running_kw: f64,
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
