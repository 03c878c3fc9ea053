//! The rule table: every rule, in the order of the book.
//! Never holds a rule itself: each is a file here, named by its code.
//!
//! To add a rule, write its file and its page of tests, and add it to both lists below.

mod bad_id;
mod bad_quantity;
mod below_the_ladder;
mod beside_itself;
mod beside_without_because;
mod block_without_format;
mod body_heading_level;
mod body_image;
mod broken_link;
mod caution_unsourced;
mod caution_without_clinician;
mod caution_without_traits;
mod change_idle;
mod change_takes_more;
mod change_twice;
mod change_unused;
mod change_without_how;
mod colour_too_pale;
mod count_goes_up;
mod cue_too_long;
mod cycle_without_retest;
mod demand_unknown;
mod dose_counts_differ;
mod duplicate_id;
mod duplicate_key;
mod effort_unsaid;
mod empty_block;
mod empty_file;
mod fault_unused;
mod fault_without_cause;
mod fault_without_cue;
mod fault_without_then;
mod fault_written_again;
mod file_too_big;
mod figure_arm_hidden;
mod figure_arrow_strays;
mod figure_face_covered;
mod figure_kit_floats;
mod figure_limb_foreshortened;
mod focus_untested;
mod format_incomplete;
mod formerly_taken;
mod hall_lacks_kit;
mod id_not_file_name;
mod joint_left_cold;
mod kit_free_dead_end;
mod kit_unused;
mod kit_without_check;
mod ladder_loop;
mod ladder_without_goal;
mod ladder_without_moves_down;
mod ladder_without_moves_up;
mod line_leaves_many_out;
mod ladder_without_test;
mod logo_refused;
mod missing_key;
mod muscle_twice;
mod name_twice;
mod no_caution_line;
mod no_club;
mod no_cue;
mod no_fault;
mod no_front_matter;
mod no_pace;
mod no_prime_mover;
mod no_sources;
mod no_standard;
mod not_utf8;
mod nothing_left;
mod one_rung_ladder;
mod option_does_not_fit;
mod orphan_movement;
mod part_misspelt;
mod pattern_not_folder;
mod per_side_contradiction;
mod picture_missing;
mod pose_angle_not_met;
mod pose_forearm_off_upright;
mod pose_joint_at_limit;
mod pose_joint_limit;
mod pose_mirrored;
mod pose_no_contact;
mod pose_not_plausible;
mod pose_nothing_moves;
mod pose_off_balance;
mod pose_out_of_reach;
mod pose_shows_other_kit;
mod pose_shows_trait;
mod pose_through_floor;
mod pose_through_kit;
mod pose_unknown_word;
mod pose_unreadable_value;
mod pose_wrong_unit;
mod pulling_below_pushing;
mod raw_html;
mod room_unsaid;
mod roster_in_library;
mod rung_of_other_pattern;
mod rung_without_dose;
mod rungs_alike;
mod same_rung_twice;
mod session_too_long;
mod setting_backwards;
mod setting_missing;
mod setting_outside_range;
pub(super) mod setting_unknown;
mod setting_without_harder;
mod setting_wrong_unit;
mod silenced_not_advice;
mod silenced_unknown;
mod silenced_without_reason;
mod source_incomplete;
mod source_unused;
mod step_backwards;
mod step_too_big;
mod step_unnamed;
mod still_to_write;
mod stray_file;
mod swap_brings_trait;
mod synonym_twice;
mod taken_setting_unknown;
mod test_day_tires;
mod test_incomplete;
mod test_rung_missing;
mod test_too_soon;
mod text_cut_off;
mod then_asks_more;
mod then_names_nothing;
mod too_much;
mod trait_level_lost;
mod trait_unused;
mod traits_unsaid;
mod unknown_change;
pub(super) mod unknown_day;
mod unknown_fault;
mod unknown_key;
pub(super) mod unknown_kit;
pub(super) mod unknown_ladder;
mod unknown_movement;
mod unknown_muscle;
mod unknown_pattern;
mod unknown_session;
mod unknown_source;
pub(super) mod unknown_trait;
pub(super) mod unknown_word;
mod unreachable_page;
mod unreadable_file;
mod unseen_sign;
mod usual_outside_range;
mod week_out_of_order;
mod week_without_session;
mod weekly_sets_jump;
mod wrong_shape;
mod yaml_syntax;

use super::Rule;

/// Every rule.
pub static RULES: &[Rule] = &[
    unreadable_file::RULE,
    file_too_big::RULE,
    too_much::RULE,
    roster_in_library::RULE,
    unseen_sign::RULE,
    not_utf8::RULE,
    still_to_write::RULE,
    stray_file::RULE,
    no_front_matter::RULE,
    yaml_syntax::RULE,
    empty_file::RULE,
    text_cut_off::RULE,
    unknown_key::RULE,
    duplicate_key::RULE,
    missing_key::RULE,
    wrong_shape::RULE,
    unknown_word::RULE,
    bad_quantity::RULE,
    bad_id::RULE,
    duplicate_id::RULE,
    formerly_taken::RULE,
    no_club::RULE,
    logo_refused::RULE,
    colour_too_pale::RULE,
    silenced_unknown::RULE,
    silenced_not_advice::RULE,
    silenced_without_reason::RULE,
    unknown_movement::RULE,
    unknown_ladder::RULE,
    unknown_session::RULE,
    unknown_kit::RULE,
    unknown_trait::RULE,
    unknown_change::RULE,
    unknown_fault::RULE,
    unknown_muscle::RULE,
    unknown_pattern::RULE,
    unknown_source::RULE,
    source_incomplete::RULE,
    source_unused::RULE,
    trait_level_lost::RULE,
    trait_unused::RULE,
    change_unused::RULE,
    fault_unused::RULE,
    kit_unused::RULE,
    synonym_twice::RULE,
    caution_unsourced::RULE,
    caution_without_traits::RULE,
    change_without_how::RULE,
    part_misspelt::RULE,
    caution_without_clinician::RULE,
    kit_without_check::RULE,
    id_not_file_name::RULE,
    pattern_not_folder::RULE,
    orphan_movement::RULE,
    name_twice::RULE,
    no_cue::RULE,
    no_standard::RULE,
    no_fault::RULE,
    no_caution_line::RULE,
    traits_unsaid::RULE,
    change_idle::RULE,
    change_takes_more::RULE,
    change_twice::RULE,
    taken_setting_unknown::RULE,
    no_sources::RULE,
    no_prime_mover::RULE,
    muscle_twice::RULE,
    no_pace::RULE,
    room_unsaid::RULE,
    picture_missing::RULE,
    pose_unknown_word::RULE,
    pose_unreadable_value::RULE,
    pose_wrong_unit::RULE,
    pose_out_of_reach::RULE,
    pose_angle_not_met::RULE,
    pose_joint_limit::RULE,
    pose_joint_at_limit::RULE,
    pose_forearm_off_upright::RULE,
    pose_through_floor::RULE,
    pose_through_kit::RULE,
    pose_off_balance::RULE,
    pose_no_contact::RULE,
    pose_nothing_moves::RULE,
    pose_mirrored::RULE,
    pose_not_plausible::RULE,
    pose_shows_other_kit::RULE,
    pose_shows_trait::RULE,
    figure_limb_foreshortened::RULE,
    figure_face_covered::RULE,
    figure_kit_floats::RULE,
    figure_arrow_strays::RULE,
    figure_arm_hidden::RULE,
    effort_unsaid::RULE,
    cue_too_long::RULE,
    fault_without_cue::RULE,
    fault_without_cause::RULE,
    fault_without_then::RULE,
    fault_written_again::RULE,
    then_names_nothing::RULE,
    then_asks_more::RULE,
    beside_itself::RULE,
    beside_without_because::RULE,
    usual_outside_range::RULE,
    setting_without_harder::RULE,
    setting_unknown::RULE,
    setting_outside_range::RULE,
    setting_wrong_unit::RULE,
    body_heading_level::RULE,
    raw_html::RULE,
    body_image::RULE,
    broken_link::RULE,
    unreachable_page::RULE,
    kit_free_dead_end::RULE,
    swap_brings_trait::RULE,
    ladder_loop::RULE,
    one_rung_ladder::RULE,
    same_rung_twice::RULE,
    setting_missing::RULE,
    setting_backwards::RULE,
    step_unnamed::RULE,
    step_backwards::RULE,
    step_too_big::RULE,
    rungs_alike::RULE,
    demand_unknown::RULE,
    test_rung_missing::RULE,
    ladder_without_test::RULE,
    test_incomplete::RULE,
    ladder_without_goal::RULE,
    ladder_without_moves_up::RULE,
    ladder_without_moves_down::RULE,
    rung_without_dose::RULE,
    rung_of_other_pattern::RULE,
    per_side_contradiction::RULE,
    dose_counts_differ::RULE,
    block_without_format::RULE,
    format_incomplete::RULE,
    count_goes_up::RULE,
    empty_block::RULE,
    option_does_not_fit::RULE,
    below_the_ladder::RULE,
    session_too_long::RULE,
    joint_left_cold::RULE,
    nothing_left::RULE,
    hall_lacks_kit::RULE,
    line_leaves_many_out::RULE,
    test_day_tires::RULE,
    cycle_without_retest::RULE,
    focus_untested::RULE,
    unknown_day::RULE,
    week_out_of_order::RULE,
    week_without_session::RULE,
    test_too_soon::RULE,
    pulling_below_pushing::RULE,
    weekly_sets_jump::RULE,
];
