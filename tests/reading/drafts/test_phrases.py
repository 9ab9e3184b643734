"""Sixty ways of saying it, most of which would mislead a machine; what is told of each step."""

from __future__ import annotations

from support.recordings import town_palette

from guidegen.base.units import HOUR, MINUTE
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.prose import Teller
from guidegen.reading.drafts.records import Cue, Draft, DraftStep, DraftStop
from guidegen.words.spoken_words import spoken_words

COAT = "First the coat, in Oilskin Ochre, with a size 2 brush."
TEAL = "Then the trousers in Sluice Teal."


def told(*sentences: str, chart: tuple[str, ...] = ()) -> Draft:
    """The draft of sentences, four seconds each."""
    words = spoken_words("en")
    cues = [
        Cue(text, number, number * 4_000, number * 4_000 + 3_900) for number, text in enumerate(sentences)
    ]
    return Teller(PotFinder(town_palette(), words), words, chart).tell(cues)


def paints(draft: Draft) -> list[list[str]]:
    return [["as before"] if step.as_before else step.paints for step in draft.steps]


def last(draft: Draft) -> DraftStep:
    return draft.steps[-1]


def stops(draft: Draft) -> int:
    return sum(isinstance(entry, DraftStop) for entry in draft.entries)


# Taking up


def test_1_neat_as_it_comes():
    draft = told("Next in line is Oilskin Ochre, neat, as it comes.")
    assert (paints(draft), last(draft).thin) == ([["Oilskin Ochre"]], "none")


def test_2_a_blob_on_the_palette():
    assert paints(told(COAT, "On the palette now there's a blob of Kiln Row.")) == [
        ["Oilskin Ochre"],
        ["Kiln Row"],
    ]


def test_3_picked_up_again_is_a_new_step():
    draft = told(TEAL, COAT, "Picking up Sluice Teal again, brush hasn't changed.")
    assert paints(draft) == [["Sluice Teal"], ["Oilskin Ochre"], ["Sluice Teal"]]


def test_4_all_day_long_is_no_time():
    draft = told(COAT, "Skin, then, and that's Deckhand all day long for me.")
    assert (last(draft).paints, last(draft).dry, last(draft).areas) == (["Deckhand"], None, ["skin"])


def test_5_the_same_as_an_area_had():
    draft = told("The boots in Jetty Plank.", COAT, "The oars? Same brown as the boots had.")
    assert last(draft).paints == ["Jetty Plank"]


def test_6_a_name_that_is_only_in_the_picture_is_not_known():
    assert paints(told(COAT, "This one lives on my desk.")) == [["Oilskin Ochre"]]


# Mixtures


def test_7_parts():
    draft = told(COAT, "Now the hat. Two of the ochre, one of Jetty Plank, roughly.")
    assert last(draft).parts == {"Oilskin Ochre": "2", "Jetty Plank": "1"}


def test_8_a_speck_is_a_touch():
    draft = told(COAT, "Ochre with a speck of Saltpan White on the brush's corner.")
    assert last(draft).parts == {"Oilskin Ochre": "1", "Saltpan White": "a touch"}


def test_9_adding_until_it_looks_like_something_has_no_parts():
    draft = told(COAT, "I keep adding white until it's old rope.")
    assert (last(draft).paints, last(draft).parts) == (["Oilskin Ochre", "Saltpan White"], {})


def test_10_a_little_more_in_each_pass():
    draft = told(COAT, "Each pass has a little more white in it.")
    assert len(draft.steps) == 1
    assert set(last(draft).paints) == {"Oilskin Ochre", "Saltpan White"}


def test_11_the_last_ratio_counts():
    draft = told(
        "Mix Oilskin Ochre and Jetty Plank.", "It was three to one; I've topped it up, call it two to one."
    )
    assert last(draft).parts == {"Oilskin Ochre": "2", "Jetty Plank": "1"}


def test_12_medium_thins():
    draft = told("Half Silt Wash, half medium.")
    assert (last(draft).paints, last(draft).thin) == (["Silt Wash"], "1 paint : 1 medium")


# Thinning


def test_13_like_skimmed_milk():
    assert "skimmed milk" in last(told(COAT, "Let it down until it runs like skimmed milk.")).thin


def test_14_drops_of_paint_and_water():
    assert last(told(COAT, "One drop of paint, two of water.")).thin == "1 paint : 2 water"


def test_15_turned_round():
    assert last(told(COAT, "Two to one, and the two is the water.")).thin == "1 paint : 2 water"


def test_16_unmeasured():
    assert last(told(COAT, "Bit stiff, so I dip the tip and carry on.")).thin


def test_17_the_kitchen_roll_is_for_dry_brushing():
    draft = told(COAT, "Now Ropewalk, and get most of it off on the kitchen roll.")
    assert last(draft).technique == "dry brush"


# Areas


def test_18_areas():
    draft = told("Next in line is Oilskin Ochre.", "Coat, hood, and the sliver of cuff you can see.")
    assert last(draft).areas == ["coat", "hood", "cuff"]


def test_19_anything_that_was_a_cow():
    draft = told(COAT, "Anything that was once a cow: straps, boots, pouches.", "Those in Jetty Plank.")
    assert last(draft).areas == ["straps", "boots", "pouches"]


def test_20_all_over_but_the_face():
    draft = told("Silt Wash now, all over, bar the face.")
    assert (last(draft).areas, last(draft).spots) == (["all"], ["bar the face"])


def test_21_a_coat_for_the_coat():
    draft = told(COAT, "The coat gets another coat.")
    assert (len(draft.steps), last(draft).coats, last(draft).areas) == (1, 2, ["coat"])


def test_coats_that_are_counted_with_a_word_between():
    draft = told("The coat in Oilskin Ochre, two thinned coats.")
    assert (last(draft).coats, last(draft).areas) == (2, ["coat"])


def test_22_the_base_before_the_base_colour():
    draft = told("I do the base before the base colour on the cloak, in Kiln Row.")
    assert (paints(draft), last(draft).technique) == ([["Kiln Row"]], "base coat")


def test_23_steering_round_is_not_painting():
    draft = told("The hood in Kiln Row, and I'm steering round the lantern, that has its turn later.")
    assert last(draft).areas == ["hood"]


# Drying


def test_24_the_kettle():
    draft = told(COAT, "Put them down and put the kettle on.")
    assert (last(draft).dry, stops(draft)) == (10 * MINUTE, 0)


def test_25_until_the_shine_has_left():
    draft = told(COAT, "Wait until the shine has left the folds.")
    assert (last(draft).dry, len(last(draft).look_for)) == (None, 1)


def test_26_a_good_half_hour():
    assert last(told(COAT, "A good half hour, longer where it pooled.")).dry == 30 * MINUTE


def test_27_the_hair_dryer_leaves_no_time():
    draft = told(COAT, "Dry already; the hair dryer had a word with it.")
    assert (last(draft).dry, len(draft.steps)) == (None, 1)
    assert any("hair dryer" in doubt for doubt in last(draft).doubts)


def test_27_times_in_the_air_and_under_a_hair_dryer_are_both_kept():
    for said in (
        "Half an hour to dry, or five minutes with the hair dryer.",
        "Five minutes with a hairdryer, otherwise half an hour.",
    ):
        step = last(told(COAT, said))
        assert (step.dry, step.warm) == (30 * MINUTE, 5 * MINUTE)


def test_28_a_night():
    assert last(told(COAT, "For me that was a night, for you a blink.")).dry == 8 * HOUR


def test_29_not_left_to_dry():
    assert last(told(COAT, "I'm not letting this dry, I'm in while it's wet.")).dry is None


# Stops


def test_30_you_are_home():
    assert stops(told(COAT, "If they only have to stand on the table, you're home.")) == 1


def test_31_good_enough_for_the_back_row():
    assert stops(told(COAT, "Good enough for the back row; the leader goes on.")) == 1


def test_32_it_is_not_but_it_could_be():
    assert stops(told(COAT, "That's finished. It isn't, but it could be.")) == 1


def test_33_enough_for_tonight_is_none():
    assert stops(told(COAT, "Enough for tonight.", TEAL)) == 0


def test_34_do_not_touch_it_now():
    draft = told(COAT, "Stop, don't touch it now.")
    assert (stops(draft), last(draft).mind) == (0, ["Stop, don't touch it now."])


# Repairs


def test_35_off_the_sleeve():
    assert last(told(COAT, "That's on the sleeve; clean damp brush, and it's gone.")).if_wrong


def test_36_cutting_back_in_is_no_step():
    draft = told(TEAL, COAT, "Over the line? Cut back in with the teal.")
    assert (len(draft.steps), bool(last(draft).if_wrong)) == (2, True)


def test_37_a_tide_line():
    draft = told(COAT, "Now Silt Wash over the lot.", "If it dries with a tide line, thin ochre over it.")
    assert (len(draft.steps), bool(last(draft).if_wrong)) == (2, True)


def test_38_a_bit_that_was_missed_is_no_step():
    assert len(told(COAT, "I've missed a bit there, and there it stays.").steps) == 1


# Alternatives


def test_39_any_warm_brown():
    draft = told("The barrel is Eel Pie.", "Any warm mid-brown: Jetty Plank, Kiln Row, whatever's open.")
    assert len(draft.steps) == 1
    assert [name for name, _ in last(draft).instead] == ["Jetty Plank", "Kiln Row"]


def test_40_what_comes_close_without_a_name():
    assert paints(told(TEAL, "No Sluice Teal? Dark blue and a dot of green comes close.")) == [
        ["Sluice Teal"]
    ]


def test_41_a_wish_is_an_alternative():
    draft = told("The scarf. I used Bell Rope Red, and wish it had been Kiln Row, so take that.")
    assert paints(draft) == [["Bell Rope Red"]]
    assert [name for name, _ in last(draft).instead] == ["Kiln Row"]


def test_42_the_club_s_bottle():
    assert paints(told(TEAL, "The club's bottle works just as well here.")) == [["Sluice Teal"]]


# Rejected


def test_43_to_46_what_was_rejected_is_no_step():
    for sentence in (
        "Plum Barge was on there first and I hated it.",
        "You'd think Saltpan White; well, it goes chalky.",
        "My hand was halfway to the black.",
        "That isn't Kiln Row, though everyone asks.",
    ):
        assert paints(told(COAT, sentence)) == [["Oilskin Ochre"]], sentence


# Cautions and looks


def test_47_and_48_cautions():
    assert last(told(COAT, "Slow down at the collar, there's no way back.")).mind
    assert last(told(COAT, "Not too wet here, or it runs into everything.")).mind


def test_49_a_bad_habit_is_never_an_instruction():
    draft = told(COAT, "I point it with my lips, which you shouldn't.")
    kept = [*last(draft).said, *last(draft).mind, *last(draft).beside, *last(draft).look_for]
    assert not any("lips" in sentence for sentence in kept)


def test_50_to_52_what_it_looks_like():
    assert last(told(COAT, "You want grey still peeping out down deep.")).look_for
    assert last(told(COAT, "It looks dreadful now, and that's right.")).look_for
    assert last(told(COAT, "If it looks like a chessboard, you went too far.")).if_wrong


# Earlier colours


def test_53_back_to_tidy_up():
    draft = told(COAT, TEAL, "Back to the ochre to tidy up.")
    assert (paints(draft)[-1], last(draft).technique) == (["as before"], "tidy up")


def test_54_the_first_colour_again():
    draft = told(COAT, TEAL, "And the first colour again, ridges only.")
    assert (last(draft).paints, last(draft).technique) == (["Oilskin Ochre"], "highlight")


def test_55_what_was_forgotten_belongs_earlier():
    draft = told(COAT, TEAL, "I forgot to say: the boots were Jetty Plank before any of this.")
    assert paints(draft) == [["Jetty Plank"], ["Oilskin Ochre"], ["Sluice Teal"]]


# Optional


def test_56_skipping_is_no_varnish_yet():
    draft = told(COAT, "You can skip this and go to varnish.")
    assert (len(draft.steps), last(draft).optional) == (1, True)


def test_57_a_variant_is_told():
    draft = told(COAT, "Buttons for the leader; the rest keep their coats shut.")
    assert any("only for some" in doubt for doubt in last(draft).doubts)
    draft = told(COAT, "For the leader, buttons in Fogbell.")
    assert (last(draft).paints, last(draft).only) == (["Fogbell"], "leader")
    assert draft.steps[0].only == ""


# Off camera


def test_58_primed_off_camera():
    draft = told("Off camera I primed them grey, last week.", COAT)
    assert (draft.steps[0].paints, draft.steps[0].technique) == (["Slate Undercoat"], "spray undercoat")


def test_59_the_other_nine_share_the_time():
    draft = told(COAT, "Off camera the other nine got the same, twenty minutes or so.")
    assert (len(draft.steps), last(draft).each) == (1, 2 * MINUTE)


def test_60_a_second_coat():
    draft = told(COAT, "While you were away it had a second coat.")
    assert (len(draft.steps), last(draft).coats) == (1, 2)
