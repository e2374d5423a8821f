//! A key's name into an example line, shown where a required key is missing.
//!
//! Must never know what a key means. Start at [`example`].

/// A line with that key as it could stand in the table at `path`.
pub(super) fn example(path: &str, key: &str) -> String {
    match key {
        "heating" if path.starts_with("option") => "heating = [\"main heat pump\"]".to_owned(),
        "from" | "to" if path.contains(".period") || path.contains(".interrupted") => {
            format!("{key} = \"17:00\"")
        }
        "from" | "to" if path.starts_with("prices") || path.starts_with("scenario") => {
            format!("{key} = \"01-10\" (month-day)")
        }
        "from" if path.starts_with("past_use") => "from = \"2024-10-20\"".to_owned(),
        "to" if path.starts_with("past_use") => "to = \"2025-01-08\" (the next reading or fill)".to_owned(),
        "efficiency" if path == "past_use" => {
            "efficiency = 0.78 (the old machine's times what its ducts kept)".to_owned()
        }
        "bills" => "bills = [{ from = \"2024-10-20\", to = \"2025-01-08\", used = \"290 gal\" }]".to_owned(),
        "used" => "used = \"290 gal\"".to_owned(),
        "jan" | "feb" | "mar" | "apr" | "may" | "jun" | "jul" | "aug" | "sep" | "oct" | "nov" | "dec" => {
            format!("{key} = \"2.49 $/gal\"")
        }
        "add" => "add = \"0.30 $/gal\"".to_owned(),
        "key" => "key = \"house.zone.main.design_load\"".to_owned(),
        "low" | "high" if path.starts_with("vary") => format!("{key} = \"28000 Btu/h\""),
        "low_times" | "high_times" => format!("{key} = 1.3"),
        _ => machine_example(key).unwrap_or_else(|| fixed_example(key)).to_owned(),
    }
}

/// Keys that only some kinds of machine have.
fn machine_example(key: &str) -> Option<&'static str> {
    Some(match key {
        "entering" => "entering = \"32 degF\" (what comes in from the loop)",
        "design_entering" => "design_entering = \"30 degF\" (from the loop, at the design load)",
        "cooling_design_entering" => "cooling_design_entering = \"85 degF\"",
        "loop_depth" => "loop_depth = \"6 ft\"",
        "efficiency" => "efficiency = 0.70 (of the burner while it runs; a pilot has its own key)",
        "pilot_from" => "pilot_from = \"10-01\" (month-day)",
        "pilot_to" => "pilot_to = \"05-15\" (month-day)",
        _ => return None,
    })
}

fn fixed_example(key: &str) -> &str {
    match key {
        "title" => "title = \"Orchard house\"",
        "name" => "name = \"main\"",
        "weather" => {
            "weather = \"il-chicago\" or weather_file = \"my-county.epw\"; with no file at hand, \
             monthly_highs, monthly_lows and heating_99"
        }
        "monthly_highs" => "monthly_highs = [\"34 degF\", ... twelve, January first]",
        "monthly_lows" => "monthly_lows = [\"19 degF\", ... twelve, January first]",
        "heating_99" => "heating_99 = \"4 degF\" (warmer than this in 99 hours of 100)",
        "design_load" => "design_load = \"36000 Btu/h\"",
        "design_temperature" => "design_temperature = \"0 degF\"",
        "indoor" => "indoor = \"70 degF\"",
        "balance_temperature" => "balance_temperature = \"62 degF\"",
        "design_load_includes_ducts" => {
            "design_load_includes_ducts = false (true if the load calculation already counts duct losses)"
        }
        "cooling_design_load" => "cooling_design_load = \"21000 Btu/h\"",
        "cooling_design_temperature" => "cooling_design_temperature = \"90 degF\"",
        "cooling_balance_temperature" => "cooling_balance_temperature = \"68 degF\"",
        "cooling_set_point" => "cooling_set_point = \"75 degF\"",
        "kind" => "kind = \"heat_pump\"",
        "ducted" => "ducted = true (false if it heats the room without ducts)",
        "capacity_basis" => "capacity_basis = \"with_defrost\" (\"steady\" if frost is not in the figures)",
        "power_includes_indoor_fan" => "power_includes_indoor_fan = true",
        "indoor_fan" => "indoor_fan = \"400 W\"",
        "heating" => "heating = [rows], table = \"name of a built-in table\" or nameplate = { ... }",
        "cooling" => "cooling = [rows] or nameplate = { ... }",
        "outdoor" => "outdoor = \"17 degF\"",
        "greatest" => "greatest = \"32 kBtu/h\"",
        "greatest_cop" => "greatest_cop = 2.35 or greatest_power = \"4 kW\"",
        "rated_cop" => "rated_cop = 2.9 or rated_power = \"2 kW\"",
        "least_cop" => "least_cop = 2.55 or least_power = \"1.2 kW\"",
        "capacity_47" => "capacity_47 = \"36 kBtu/h\" (at 47 degF outdoors)",
        "capacity_17" => "capacity_17 = \"30 kBtu/h\" (at 17 degF outdoors)",
        "hspf2" => "hspf2 = 9.5",
        "cooling_capacity_95" => "cooling_capacity_95 = \"34 kBtu/h\" (at 95 degF outdoors)",
        "seer2" => "seer2 = 18",
        "turndown" => "turndown = 0.3 (least over greatest output; 1 for a machine of one speed)",
        "fuel" => "fuel = \"propane\"",
        "input" => "input = \"60000 Btu/h\"",
        "afue" => "afue = 0.95",
        "stages" => "stages = [\"5 kW\", \"5 kW\"]",
        "zone" => "zone = \"main\"",
        "price" => "price = \"2.49 $/gal\" (or price_by_month, price_by_season, tier or period)",
        "from" => "from = \"22:00\"",
        "to" => "to = \"06:00\"",
        "set_point" => "set_point = \"64 degF\"",
        "times" => "times = 2.0",
        "format" => "format = 1 above the first [header]",
        "job" => "[job], with title = \"...\" below it",
        "site" => "[site], with name and weather below it",
        "house" => "[house], and a [[house.zone]] for each part with its own thermostat",
        "equipment" => "[[equipment]] for each machine, with name and kind below it",
        "option" => "[[option]] for each way to heat the house, with its [[option.zone]]",
        "prices" => "[prices.electricity], with price = \"0.184 $/kWh\" below it",
        other => supply_example(other),
    }
}

fn supply_example(key: &str) -> &str {
    match key {
        "capacity" => "capacity = \"500 gal\" (of a propane tank, its water capacity)",
        "orders" => "orders = \"automatic\" (or \"will_call\", \"summer_fill\")",
        "summer_fill_day" => "summer_fill_day = \"07-15\" (month-day)",
        "plan_price" => "plan_price = \"2.09 $/gal\"",
        "plan_amount" => "plan_amount = \"600 gal\"",
        "left_over" => "left_over = \"refund\" (or \"carry\", \"lose\")",
        "minimum_drop" => "minimum_drop = \"100 gal\"",
        "emergency_days" => "emergency_days = 1",
        "low_use_below" => "low_use_below = \"200 gal\"",
        "low_use_fee" => "low_use_fee = \"90 $/year\"",
        "set_and_pick_up_fee" => "set_and_pick_up_fee = \"300 $/tank\"",
        "half_life_from" => "half_life_from = 0.5 (years)",
        "half_life_to" => "half_life_to = 5 (years)",
        "spike_winters" => "spike_winters = 2",
        "of_winters" => "of_winters = 25",
        "diameter" => "diameter = \"37 in\"",
        "length" => "length = \"119 in\"",
        other => household_example(other),
    }
}

fn household_example(key: &str) -> &str {
    match key {
        "form" => "form = \"tank\" (or \"tankless\", \"heat_pump\")",
        "what" => "what = \"heat pump, installed\"",
        "amount" => "amount = \"14500 $\"",
        "date" => "date = \"2026-03\" (when it was looked up)",
        "source" => "source = \"...\" (where it was looked up)",
        "rate" => "rate = 0.065",
        "months" => "months = 120",
        "efficiency" => "efficiency = 0.64 (the uniform energy factor of a water heater)",
        "location" => "location = \"inside\" (\"outside\" if it takes no heat from the rooms)",
        "energy_per_load" => "energy_per_load = \"2.6 kWh\"",
        "hot_water_use" => "hot_water_use = \"50 gal/day\"",
        "dryer_loads_a_week" => "dryer_loads_a_week = 5",
        "cooking" => "cooking = \"250 kWh/year\" (heat that reaches the food)",
        other => other,
    }
}
