/* Pages before functions: most who search want to know how something is done. */
var Scorer = {
  objNameMatch: 3, objPartialMatch: 1, objPrio: { 0: 0, 1: 0, 2: -5 }, objPrioDefault: 0,
  title: 15, partialTitle: 7, term: 5, partialTerm: 2,
};
