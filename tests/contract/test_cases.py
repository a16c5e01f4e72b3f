"""The open cases stand as tests by name: on a pane, the window, a service or a rule."""

import ast
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
MIX, CUP = "panes/mix/test_presenter.py", "panes/mix/test_cup_page.py"
MEASURE, SHELF = "panes/mix/test_measure_page.py", "panes/mix/test_shelf_pages.py"
CASES, BLANK = "panes/mix/test_cases.py", "panes/blank/test_presenter.py"
CURE, STEPS, CLOCKS = "core/test_cure.py", "core/test_milestones.py", "core/test_timeline.py"
OPEN, CALLS, WINDOW = "services/test_open_cases.py", "services/test_alarms.py", "app/test_alarms.py"
DAMP = "panes/mix/test_damp.py"
WOOD, CHAMBER = "panes/stabilise/test_cases.py", "panes/stabilise/test_cases_vacuum.py"
TURN, SYMPTOM = "panes/turn/test_presenter.py", "services/test_symptom_facts.py"
KEPT = "store/test_kept_files.py"
POT, COATS = "app/test_pot_cases.py", "panes/turn/test_finish_cards.py"
BENCH, LOG = "core/test_bench.py", "panes/log/test_presenter.py"
SETS, STABILISE = "core/test_stabilising.py", "panes/stabilise/test_presenter.py"
CASE_TESTS: dict[str, tuple[tuple[str, str], ...]] = {
    "M01": (
        (MEASURE, "test_a_label_with_two_ratios_is_weighed_by_the_one_by_weight"),
        (MEASURE, "test_two_ratios_that_contradict_the_densities_are_told"),
        (MIX, "test_two_ratios_on_a_label_are_kept_apart_by_their_basis"),
    ),
    "M03": (
        (MIX, "test_hardener_that_ran_out_is_told_with_its_size_and_needs_a_reason"),
        (MIX, "test_short_hardener_is_rescued_in_grams_or_serves_less_resin"),
        (SHELF, "test_a_shelf_that_is_short_is_told_before_anything_is_poured"),
        ("panes/mix/test_mending.py",
         "test_hardener_that_ran_out_is_topped_up_from_the_next_bottle"),
    ),
    "M04": (
        (MEASURE, "test_metered_pumps_stroked_by_the_label_are_half_short"),
        (MEASURE, "test_five_strokes_each_of_metered_pumps_are_right"),
        (SHELF, "test_wrong_strokes_show_in_what_the_bottles_lost"),
    ),
    "M05": (
        (MIX, "test_four_times_the_hardener_never_starts_by_itself"),
        (MIX, "test_a_cup_half_and_half_may_burn"),
    ),
    "M06": (
        (MEASURE, "test_a_one_gram_scale_allows_the_ratio_from_a_hundred_and_five_grams"),
        (CASES, "test_the_least_batch_follows_what_the_scale_may_be_off_by"),
    ),
    "M07": ((MEASURE, "test_the_lines_of_a_cup_are_checked_with_water"),),
    "M08": (
        (MEASURE, "test_a_scale_in_millilitres_shows_grams_of_water"),
        (MEASURE, "test_ounces_are_asked_about_and_never_guessed"),
    ),
    "M10": ((MEASURE, "test_a_tiny_casting_is_not_for_a_one_gram_scale"),),
    "M11": (
        (SHELF, "test_caps_of_colour_are_grams_of_the_whole_mix"),
        ("panes/mix/test_edges.py",
         "test_colour_is_typed_as_a_share_of_both_parts_and_kept_in_grams"),
        (SHELF, "test_water_based_colour_never_goes_into_polyurethane"),
        (SHELF, "test_a_dye_for_polyester_is_refused_in_another_family"),
        (SHELF, "test_an_untried_colour_wants_a_test_cup_until_it_did_well_once"),
    ),
    "M12": ((MIX, "test_a_hurried_cup_is_told_what_speed_comes_from"),),
    "M13": (
        (CASES, "test_a_resin_by_drops_is_named_and_told_where_its_dose_stands"),
        (CUP, "test_a_resin_hardened_by_drops_is_refused_by_its_name"),
    ),
    "M14": (
        (CASES, "test_three_minutes_and_three_in_a_second_cup_count_within_the_time"),
        (SHELF, "test_stirring_and_the_second_cup_are_steps_that_count"),
        ("panes/log/test_presenter.py",
         "test_soft_in_spots_speaks_of_stirring_and_soft_everywhere_of_the_ratio"),
    ),
    "V01": (
        (BLANK, "test_a_mould_alone_needs_its_own_volume"),
        (CUP, "test_an_amount_measured_with_water_is_grams_by_the_density"),
        (MIX, "test_a_volume_without_a_density_is_never_taken_for_grams"),
    ),
    "V02": ((BLANK, "test_a_core_that_floats_is_told_what_holds_it"),),
    "V04": ((BLANK, "test_a_level_that_fell_says_what_was_lost"),),
    "V05": (
        (BLANK, "test_a_mould_filled_close_to_its_rim_is_not_carried"),
        (POT, "test_a_tight_fit_and_a_pot_that_will_be_carried_are_not_ready"),
        (POT, "test_it_must_not_be_carried_until_it_is_vented"),
    ),
    "V06": (
        (BLANK, "test_a_soft_box_that_bows_takes_more"),
        (BLANK, "test_the_long_wall_of_a_box_carries_its_resin"),
    ),
    "V07": (
        (BLANK, "test_an_insert_by_weight_carries_its_range"),
        (BLANK, "test_the_high_end_of_a_range_goes_to_mix"),
        (CUP, "test_blanks_amount_counts_until_one_is_typed_and_can_be_taken_again"),
    ),
    "C04": (
        (OPEN, "test_c04_a_hot_box_at_a_hundred_fahrenheit_is_two_and_a_half_times_as_fast"),
        (OPEN, "test_c04_two_hundred_fahrenheit_are_no_cure_at_all"),
        (OPEN, "test_c04_a_probe_that_disagrees_with_the_setting_calls_after_a_quarter_of_an_hour"),
        (OPEN, "test_c04_above_the_sheets_highest_it_calls_at_once"),
        (WINDOW, "test_c04_a_hot_box_beyond_its_setting_calls_in_the_band"),
    ),
    "C05": ((CUP, "test_a_hot_day_shortens_the_working_time_and_the_cup"),),
    "C06": (
        (CUP, "test_twelve_ounces_are_mixed_in_six_cups_of_two"),
        (CUP, "test_working_time_is_never_scaled_by_mass"),
    ),
    "C08": (
        (BLANK, "test_a_deep_pour_is_told_in_layers"),
        (BLANK, "test_five_per_cent_are_added_where_no_sheet_gives_its_shrinkage"),
        (CUP, "test_a_deep_pour_is_told_in_layers"),
        ("panes/cure/test_presenter.py", "test_seven_days_at_22_degrees_are_nine_at_18"),
    ),
    "C09": ((CUP, "test_a_cold_garage_is_no_credit_and_the_last_pour_stands_beside"),),
    "C13": (
        (COATS, "test_a_seal_coat_opens_after_ten_hours_and_stays_open_for_29"),
        ("services/test_waits.py",
         "test_a_seal_coat_is_poured_on_within_its_window_and_sanded_after_it"),
    ),
    "C14": ((CUP, "test_part_a_at_fifty_degrees_would_have_a_fifth_of_its_time"),),
    "C15": (
        (CUP, "test_sixty_grams_left_over_keep_the_batch_open_until_cold_and_hard"),
        (CUP, "test_a_little_left_over_is_no_matter"),
    ),
    "C16": (
        ("panes/warmup/test_presenter.py",
         "test_a_pound_and_a_half_of_mixed_resin_is_never_kept_warm"),
    ),
    "C17": (
        (SHELF, "test_steps_are_timed_back_from_pressure_and_late_ones_say_so"),
        (SHELF, "test_running_steps_are_told_as_done_one_by_one"),
        (CASES, "test_three_degrees_warmer_leave_less_to_pressure"),
    ),
    "C12": ((BENCH, "test_bubbles_at_the_wood_on_a_warming_day"),
            ("services/test_hindsight.py", "test_warming_before_the_gel_is_seen"),
            (COATS, "test_on_a_warming_day_air_comes_out_of_the_wood"),
            ("panes/cure/test_presenter.py",
             "test_c12_on_a_warming_day_it_is_told_how_the_air_in_the_wood_grows"),
            ("panes/warmup/test_resin.py",
             "test_c12_poured_moulds_are_warmed_after_the_gel_and_the_air_in_their_wood_grows")),
    "C19": (("services/test_hindsight.py",
             "test_damp_air_speaks_of_froth_where_the_resin_foams"),
            (COATS, "test_on_a_rainy_day_polyurethane_froths"),
            (DAMP, "test_on_a_rainy_day_the_caution_stands_beside_the_grams"),
            (DAMP, "test_the_sheets_own_limit_comes_first_and_is_named"),
            (DAMP, "test_wood_without_a_record_is_not_taken_for_dry")),
    "S01": (
        (WOOD, "test_s01_a_wet_burl_is_no_go_until_its_mass_stands_still"),
        (SETS, "test_a_wet_burl_keeps_the_vacuum_locked"),
    ),
    "S02": (
        (WOOD, "test_s02_a_meter_at_its_floor_never_passes_wood"),
        (STABILISE, "test_a_meter_at_its_floor_says_this_or_less"),
    ),
    "S03": (
        (WOOD, "test_s03_a_meter_three_points_low_is_a_warning_and_a_night_in_the_open_undoes_it"),
        (SETS, "test_one_hour_is_not_constant_weight"),
        (SETS, "test_wood_that_took_up_water_goes_back_to_the_oven"),
    ),
    "S04": ((WOOD, "test_s04_one_cool_box_dries_and_never_cures"),),
    "S05": (
        (WOOD, "test_s05_an_oven_above_its_dial_is_remembered_and_called_out"),
        (STABILISE, "test_an_oven_in_the_wrong_unit_is_asked_about"),
    ),
    "S06": (
        (WOOD, "test_s06_a_two_hour_timer_is_called_ten_minutes_before"),
        (SETS, "test_an_oven_that_switches_itself_off_is_wound_again"),
        (STABILISE, "test_an_oven_that_switches_itself_off_has_its_button"),
    ),
    "S07": (
        (WOOD, "test_s07_the_bake_has_a_not_before_and_no_too_long"),
        (SETS, "test_the_bake_counts_from_the_core_not_from_the_door"),
    ),
    "S09": (
        (WOOD, "test_s09_without_a_mass_before_the_densities_tell_and_with_low_confidence"),
        ("core/test_wood.py", "test_burl_gained_by_density_is_told_against_its_ceiling"),
    ),
    "S10": (
        (WOOD, "test_s10_more_went_than_the_pieces_have_room_for"),
        ("core/test_wood.py", "test_82_blanks_from_a_gallon_drink_more_than_they_can_hold"),
    ),
    "S11": ((CHAMBER, "test_s11_the_same_dial_is_judged_by_barometer_or_not_at_all"),),
    "S13": (
        (CHAMBER, "test_s13_the_vacuum_ends_on_what_is_seen_and_the_soak_is_twice_as_long"),
        (SETS, "test_the_soak_lasts_twice_the_vacuum_and_is_not_cut_short"),
    ),
    "S14": ((CHAMBER, "test_s14_foam_has_its_steps_its_room_and_somebody_beside_it"),),
    "S15": ((CHAMBER, "test_s15_cover_is_the_drop_and_ten_millimetres"),),
    "S16": (
        (CHAMBER, "test_s16_after_a_power_cut_nothing_is_known_and_the_time_begins_anew"),
        (STABILISE, "test_the_shut_down_is_told_in_its_order"),
    ),
    "S17": ((CHAMBER, "test_s17_pale_wood_into_a_bath_of_a_dark_past_is_told"),),
    "S18": ((CHAMBER, "test_s18_the_lid_of_ten_inches_carries_1154_pounds"),),
    "T01": (
        (TURN, "test_the_band_follows_the_diameter"),
        (TURN, "test_a_foot_across_at_a_thousand_turns_flies_at_16_metres_a_second"),
        (TURN, "test_the_knob_turned_the_wrong_way_is_told_by_its_energy"),
        (BENCH, "test_sound_work_gets_the_whole_band"),
        (BENCH, "test_350_to_3000_is_73_times_the_energy"),
    ),
    "T02": (
        (TURN, "test_a_blank_is_cut_longer_so_that_the_point_never_breaks_out"),
        (TURN, "test_under_four_millimetres_of_wall_it_may_split"),
        (BENCH, "test_stop_and_length_keep_the_point_inside"),
    ),
    "T03": (
        (TURN, "test_a_stabilised_block_is_drilled_in_ten_pecks_of_six_millimetres"),
        (BENCH, "test_a_stabilised_block_is_drilled_in_pecks_of_six_millimetres"),
        (SYMPTOM, "test_long_steps_of_the_drill_explain_a_chip"),
    ),
    "T04": (
        (COATS, "test_a_young_casting_gums_and_is_told_to_wait"),
        (COATS, "test_friction_stays_below_the_softening"),
        (SYMPTOM, "test_the_lathes_typed_speed_is_held_against_its_band"),
        (BENCH, "test_a_young_casting_that_gums_is_told_to_wait"),
    ),
    "T06": (
        (BENCH, "test_a_ladder_without_a_skip_has_no_step_too_far"),
        (BENCH, "test_a_skipped_paper_is_found_and_named"),
    ),
    "R01": (
        (LOG, "test_what_failures_share_is_told"),
        (LOG, "test_again_opens_a_repeat_and_takes_it_in_hand"),
        (LOG, "test_lots_are_traced_to_batches_and_back"),
    ),
    "R02": (
        (SYMPTOM, "test_soft_after_three_days_by_the_batchs_own_rows"),
        (BENCH, "test_soft_after_three_days_is_told_by_the_record"),
    ),
    "C01": (
        (STEPS, "test_c01_under_the_lowest_temperature_there_is_no_finish_time"),
        ("panes/cure/test_nights.py", "test_a_household_that_cools_by_night_takes_29_hours_for_24"),
    ),
    "C02": (
        (CURE, "test_c02_a_cold_spell_under_the_floor_counts_nothing"),
        (OPEN, "test_c02_a_deck_that_met_the_cold_goes_on_when_it_is_warm"),
    ),
    "C10": ((STEPS, "test_c10_lamps_are_foretold_within_the_range_of_the_report"),),
    "C11": (
        (CURE, "test_c11_hours_of_unknown_temperature_count_nothing_for_releases"),
        ("services/test_unknown_stretches.py",
         "test_it_counts_nothing_whether_typed_before_or_after_the_mornings_reading"),
    ),
    "C18": (
        (CALLS, "test_unanswered_it_fills_the_window_grows_loud_and_the_log_says_not_seen"),
        (CALLS, "test_after_a_sleep_it_is_raised_once_with_its_lateness"),
    ),
    "X01": ((CLOCKS, "test_x01_a_wait_goes_on_while_the_machine_sleeps"),),
    "X02": ((CLOCKS, "test_x02_a_long_silence_of_a_running_program_is_a_suspend"),),
    "X03": ((OPEN, "test_x03_two_hours_over_the_change_of_the_clocks_are_two_hours"),),
    "X05": ((WINDOW, "test_x05_a_minimised_window_calls_within_two_seconds_of_its_time"),),
    "X06": ((CLOCKS, "test_x06_across_a_restart_heartbeats_and_wall_time_bridge_the_gap"),),
    "X07": (
        (KEPT, "test_x07_a_write_that_fails_anywhere_leaves_the_old_or_the_new_file_whole"),
        (KEPT, "test_x07_an_unreadable_file_falls_back_is_told_and_is_never_written_over"),
    ),
    "X08": (
        ("store/test_opening.py", "test_commits_are_synced_in_full_to_a_write_ahead_log"),
        ("store/test_opening.py", "test_a_malformed_file_is_damaged"),
    ),
    "X09": (
        ("desktop/test_single_instance.py",
         "test_x09_a_second_launch_calls_the_first_and_is_gone_within_a_second"),
    ),
    "X10": (
        ("core/entry/test_quantity.py",
         "test_x10_a_decimal_comma_never_becomes_ten_times_too_much"),
    ),
    "X11": (
        (WINDOW, "test_a_device_that_refuses_raises_its_own_alarm_and_the_band_still_calls"),
        (WINDOW, "test_the_sound_is_tried_from_the_list_and_who_hears_nothing_says_so"),
    ),
    "X13": (
        (CLOCKS, "test_x13_another_zone_is_found_and_moves_no_instant"),
        (CLOCKS, "test_x13_a_clock_set_right_after_the_start_widens_and_never_runs_back"),
    ),
    "X14": (
        (OPEN, "test_x14_a_step_of_seven_days_rings_within_two_seconds"),
        (WINDOW, "test_x14_a_clock_of_seven_days_calls_within_two_seconds_of_its_time"),
    ),
    "X15": (
        (WINDOW, "test_the_band_calls_and_one_key_answers"),
        (CALLS, "test_while_a_call_is_near_the_machine_is_kept_awake"),
        ("panes/out/test_presenter.py", "test_the_sheet_can_be_printed_as_it_stands"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", CASE_TESTS)
def test_the_tests_of_a_case_exist(case: str) -> None:
    for path, name in CASE_TESTS[case]:
        tree = ast.parse((TESTS / path).read_text("utf-8"))
        names = {node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}
        assert name in names, f"{case}: {path} has no {name}"
