/** What is said when something does not work. */
export const trouble = {
  unreachable: "The program behind this page does not answer.",
  unreachableRemedy:
    "It may have been closed, or the machine was asleep. What you typed is still here. Start Boilbench again if it was closed, then try again.",
  shutOut: "This page is not let in any more.",
  shutOutRemedy:
    "Boilbench was started anew, or this window was opened without its address. Open the address that Boilbench shows when it starts. What you typed is still here until you close the window.",
  failed: "That did not work.",
  refused: "That was not taken.",
  tryAgain: "Try again",
  broken: "This page has stopped because of a fault in the program.",
  brokenRemedy: "Your study is safe. Load the page again; if it stops again, report this text:",
  reload: "Load the page again",
};
