"""Sentences of ``wetside.development``."""

from wetside.wording.catalog import N_

PARTS = ("development_ways",)
"""Further modules of this catalogue."""

SENTENCES = {
    "development.agitation.cut_not_positive": N_(
        "The factor for continuous agitation must be more than 0, not {value:plain}. A cut of 15 % is 0.85."
    ),
    "development.agitation.presoak_negative": N_("A pre-soak cannot last {value:plain} s. Give 0 or more."),
    "development.agitation.stand": N_(
        "A time for {from_class} development says nothing about {to_class}: stand development is not converted. Use a "
        "time that was found with the agitation you will use."
    ),
    "development.arrhenius.energy": N_(
        "An activation energy of {value:plain} J/mol is not possible. It lies between 0 and {high:plain}."
    ),
    "development.clock.handling_negative": N_(
        "Pour, drain and stop pour cannot last {value:plain} s. Give 0 or more for each."
    ),
    "development.clock.nothing_left": N_(
        "Pour ({pour_s:seconds}) and drain ({drain_s:seconds}) leave nothing of a time of {time_s:mss}. Check the time "
        "and what it counts."
    ),
    "development.clock.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.coefficient.no_pairs": N_(
        "There is no pair of times to find a temperature coefficient from. Give the developer's times at two "
        "temperatures, or name a coefficient."
    ),
    "development.coefficient.out_of_range": N_(
        "A temperature coefficient of {value:plain} per °C is not possible. It lies between {low:plain} and "
        "{high:plain}; 0.07 means 7 % a degree."
    ),
    "development.coefficient.q10_not_positive": N_(
        "Q10 must be 1 or more, not {value:plain}: it is a time over the shorter time ten degrees warmer."
    ),
    "development.contrast.above_limit": N_(
        "A contrast of {value:density} is not reached: this film and developer end at {limit:density}. Choose a lower "
        "contrast or a stronger developer."
    ),
    "development.contrast.elasticity": N_(
        "An elasticity of contrast of {value:plain} is not possible. It lies between {low:plain} and {high:plain}; "
        "0.65 is usual."
    ),
    "development.contrast.factor_not_positive": N_(
        "A time cannot be multiplied by {value:plain}. The factor must be more than 0 and at most 20."
    ),
    "development.contrast.gradient_not_positive": N_("A contrast must be more than 0, not {value:plain}."),
    "development.contrast.not_first_order": N_(
        "Contrasts of {short:density} and {double:density} at a time and at twice that time do not follow the law that "
        "ends at a limit: the second must be higher than the first and less than twice as high. Read the time between "
        "your tested times instead."
    ),
    "development.contrast.outside_tested": N_(
        "{time_s:mss} is too far from the tested times: this guide is not read outside {low_s:mss} to {high_s:mss}. "
        "Test a time nearer to it."
    ),
    "development.contrast.range_negative": N_("A density range must be 0 or more, not {value:plain}."),
    "development.contrast.rate_not_positive": N_("The rate of development must be more than 0, not {value:plain}."),
    "development.contrast.same_time": N_(
        "Both contrasts are for {time_s:mss}. Two different times are needed to see how contrast goes with time."
    ),
    "development.contrast.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.contrast.too_far": N_(
        "From a contrast of {given:plain} to {wanted:plain} the time would change more than {most:plain} times. Start "
        "from a time for a nearer contrast."
    ),
    "development.floor.negative": N_(
        "Pour, drain and shortest time cannot be {value:plain} s. Give 0 or more for each."
    ),
    "development.floor.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.integral.no_coefficient": N_(
        "With a temperature coefficient of {value:plain} every temperature develops alike, so there is no effective "
        "temperature. Name a coefficient above 0."
    ),
    "development.integral.no_relaxation": N_(
        "From {start_c:temp} to {end_c:temp} beside a jacket of {jacket_c:temp} is no approach to the jacket: the end "
        "must lie between the two. Check the readings."
    ),
    "development.integral.tau_not_positive": N_(
        "The time in which the vessel follows its jacket must be more than 0, not {value:plain} s."
    ),
    "development.integral.time_backwards": N_(
        "A temperature reading at {after_s:mss} stands after one at {before_s:mss}. Put them in order of time."
    ),
    "development.integral.time_impossible": N_(
        "A time of {value:plain} s is not possible here. It must be 0 or more, and less than twelve days."
    ),
    "development.integral.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.integral.too_few_readings": N_(
        "At least two temperature readings are needed, one at the start and one at the end; there are {count}."
    ),
    "development.pair.not_shorter": N_(
        "The warmer of two times must not be the longer one: {cold_s:mss} when cold and {warm_s:mss} when warm. Are "
        "they swapped?"
    ),
    "development.pair.not_warmer": N_(
        "The warm side ({warm_c:temp}) must be warmer than the cold side ({cold_c:temp}). Are they swapped?"
    ),
    "development.pair.time_not_positive": N_("A time of a pair must be more than 0, not {value:plain} s."),
    "development.pair.too_soft": N_(
        "A time of {time_s:mss} cannot be uncertain by {value:plain} s. Give 0 or more, and less than the time."
    ),
    "development.push.beyond_printed": N_(
        "The rule for pushing is printed for {most:plain} stops at most, not {stops:plain}. Look for a time for that "
        "exposure index, or test."
    ),
    "development.push.not_finite": N_("{value:plain} is no number of stops."),
    "development.temperature.not_liquid": N_(
        "A bath cannot have {value:plain_c}. Allowed is {low_c:bare_c} to {high_c:plain_c}."
    ),
    "development.temperature.outside_span": N_(
        "{temp_c:temp} lies outside the temperatures for which this developer's times are known ({low_c:temp} to "
        "{high_c:temp}). Bring the bath into that span, or name a coefficient yourself; it will be marked as assumed."
    ),
}
