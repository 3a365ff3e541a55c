//! Hook-up: BS 7671 section 721, and what it leaves to common practice. The order stands in
//! `order.rs`.

use crate::bench::{refused, vehicle};

const LEAD: (&str, &str) = ("mains_lead", "");
const SWITCH: (&str, &str) = ("main_switch", "");

never!(
    no_connector_out_while_the_plug_is_in_a_live_post_bs_7671_721,
    [LEAD],
    [("mains_lead.vehicle_end", "out"), ("mains_lead.post_end", "in"), ("post.supply", "live")],
    "mains_lead.live_connector",
    Danger,
    "BS 7671 section 721"
);
never!(
    no_plug_moved_while_the_post_is_on_bs_7671_721,
    [LEAD],
    [("mains_lead.post_end", "part"), ("post.switch", "on"), ("post.supply", "live")],
    "mains_lead.plugged_under_power",
    Danger,
    "BS 7671 section 721"
);
never!(
    no_end_moved_while_the_main_switch_is_on_bs_7671_721,
    [LEAD, SWITCH],
    [("mains_lead.vehicle_end", "part"), ("main_switch.lever", "on")],
    "mains_lead.connected_under_load",
    Danger,
    "BS 7671 section 721"
);
never!(
    no_lead_coiled_in_use_bs_7671_721,
    [LEAD],
    [("mains_lead.coil", "stowed"), ("mains_lead.post_end", "in")],
    "mains_lead.coiled_in_use",
    Danger,
    "BS 7671 section 721"
);
never!(
    loads_off_before_the_main_switch_bs_7671_721,
    [SWITCH, ("boiler", "")],
    [("main_switch.lever", "off"), ("boiler.heat", "electric")],
    "main_switch.load_on_switch",
    Damage,
    "BS 7671 section 721"
);
never!(
    no_load_before_the_rcd_was_tested_bs_7671_721,
    [SWITCH, ("boiler", "")],
    [("main_switch.rcd", "untested"), ("boiler.heat", "electric")],
    "main_switch.boiler_on_untested_rcd",
    Danger,
    "BS 7671 section 721"
);
never!(
    no_heater_before_the_rcd_was_tested_bs_7671_721,
    [SWITCH, ("heater_electric", "")],
    [("main_switch.rcd", "untested"), ("heater_electric.heat", "on")],
    "heater_electric.on_untested_rcd",
    Danger,
    "BS 7671 section 721"
);
never!(
    no_flap_shut_on_the_connector_common_practice_no_source,
    [LEAD, ("inlet_flap", "")],
    [("inlet_flap.leaf", "shut"), ("mains_lead.vehicle_end", "in")],
    "inlet_flap.shut_on_connector",
    Damage,
    "common practice, no source"
);
never!(
    no_use_with_an_rcd_that_does_not_trip_common_practice_no_source,
    [SWITCH, LEAD],
    [("main_switch.device", "failed"), ("mains_lead.post_end", "in")],
    "main_switch.used_with_failed_rcd",
    Danger,
    "common practice, no source"
);
never!(
    no_use_without_earth_common_practice_no_source,
    [LEAD],
    [("post.earth", "missing"), ("mains_lead.post_end", "in")],
    "mains_lead.no_earth",
    Danger,
    "common practice, no source"
);
never!(
    no_inverter_while_the_inlet_is_in_use_bs_7671_551,
    [LEAD, ("inverter", "")],
    [("inverter.power", "on"), ("mains_lead.vehicle_end", "in")],
    "inverter.two_sources",
    Danger,
    "BS 7671 section 551"
);
never!(
    no_generator_while_the_inlet_is_in_use_bs_7671_551,
    [LEAD, ("generator", "")],
    [("generator.power", "on"), ("mains_lead.vehicle_end", "in")],
    "generator.two_sources",
    Danger,
    "BS 7671 section 551"
);

/// What has a changeover may run.
#[test]
fn a_changeover_lifts_the_rule_of_two_sources_bs_7671_551() {
    let inlet = [("mains_lead.vehicle_end", "in")];
    for (kind, line, step) in [
        ("inverter", "kept_apart_by = \"changeover\"", "inverter.switch_on"),
        ("generator", "has_changeover = true", "generator.start"),
    ] {
        let without = vehicle(&[LEAD, (kind, "")]);
        assert_eq!(refused(&without, step, &inlet), [format!("{kind}.two_sources")]);
        let with = vehicle(&[LEAD, (kind, &format!("values = {{ {line} }}"))]);
        assert_eq!(refused(&with, step, &inlet), [""; 0]);
    }
}

says!(the_lead_is_looked_over_and_fully_uncoiled_bs_7671_721,
    "mains_lead.move.uncoil": ["Look the {it} over", "fully uncoiled"],
    "mains_lead.caution.uncoil": ["damaged lead", "do not use it"]);
says!(a_tester_is_used_where_there_is_one_common_practice_no_source,
    "main_switch.caution.test_rcd": ["If you own a tester", "earth and polarity"]);
says!(no_earth_or_no_trip_means_unhook_common_practice_no_source,
    "main_switch.caution.test_rcd": ["does not trip, or there is no earth: unhook"],
    "main_switch.danger.used_with_failed_rcd": ["unhook"],
    "mains_lead.danger.no_earth": ["unhook"]);
says!(reversed_polarity_and_what_a_two_pole_switch_cures_common_practice_no_source,
    "main_switch.caution.test_rcd": ["Polarity reversed", "two-pole main switch still cuts both", "one-pole switch can leave an appliance live"]);
says!(the_sites_equipment_is_left_alone_common_practice_no_source,
    "post.caution.switch_on": ["Touch nothing else on the post"],
    "mains_lead.caution.plug_in": ["Leave the site's other equipment alone"]);
says!(the_vehicles_own_switches_come_before_the_posts_common_practice_no_source,
    "post.caution.switch_on": ["look at your own switches before the post"]);
