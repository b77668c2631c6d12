swapboardComposer({"version":1,"makers":[["ada-lindqvist","Ada Lindqvist"],["bo-tamm","Bo Tamm"]],"cards":[["night-heron","Night heron",0,null]],"calls":[["small-lights","Small lights",4]]});
