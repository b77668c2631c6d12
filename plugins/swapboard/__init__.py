"""A board of artist trading cards: from posts and photos to a site.

From the top; each floor imports only those below it.

cli, *_commands, terminal   the command line
site                        the Pelican plugins, which draw pages
disk                        a board's folder, the photo cache, staging and publishing
views                       what each page shows, as plain data
facets, photo               lists and feeds; finding and straightening cards
matching, dealing           who could swap with whom; a group swap's deal
taking, today               what came by mail; who owes whom what
records                     text to records, or to problems
vocabulary                  media, countries, paper, spelling
settings, problems          board.toml; what is wrong and how to mend it
"""
