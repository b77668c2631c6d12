"""Lists of cards: grouping by theme and medium, paging, the filter's index [pure]."""
